"""Layer 0: values and rules of names, pure."""
