"""Lists on this machine: the index, what is read into it, and what it answers."""
