"""Layer 1: from the text of a seller's tag to what it says."""
