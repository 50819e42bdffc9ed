"""Layer 1: what sources say, as values, and the interfaces of sources."""
