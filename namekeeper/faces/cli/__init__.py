"""Layer 5: the command line: one module a verb."""
