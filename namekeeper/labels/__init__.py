"""Layer 3: label content, sheets, fitting and printing."""
