"""The page: safety, places, and the whole of it driven in a browser."""
