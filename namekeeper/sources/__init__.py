"""Layer 3: where statements come from: lists on disk and open services."""
