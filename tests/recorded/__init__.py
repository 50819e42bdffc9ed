"""What whole command lines print, return and write, recorded and played again; ``python -m tests.recorded`` records."""
