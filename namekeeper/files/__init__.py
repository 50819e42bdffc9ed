"""Layer 1: the one rim for files: where ours lie, and how any file is read and written."""
