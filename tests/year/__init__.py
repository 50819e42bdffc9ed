"""A keeper's first year at the command line, from one end to the other."""
