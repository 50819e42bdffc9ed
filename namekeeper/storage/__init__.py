"""Layer 3: the keeper's files: reading, careful writing, locks and journal."""
