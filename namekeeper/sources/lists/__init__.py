"""Lists on this machine: one index format for the starter list and for whole catalogues."""
