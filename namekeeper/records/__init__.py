"""Layer 1: specimens and their dated names, pure."""
