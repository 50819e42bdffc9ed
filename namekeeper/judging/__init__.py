"""Layer 2: candidates for a tag, the verdict on a name."""
