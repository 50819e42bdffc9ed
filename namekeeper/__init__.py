"""Names and labels for keepers of tarantulas and other small animals."""

__version__ = "0.1.0"
