"""Layer 2: specimens and their dated names, pure."""
