"""Layer 5: what a person sees: command line and reports; no logic."""
