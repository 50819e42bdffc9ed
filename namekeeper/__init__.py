"""Names and labels for keepers of tarantulas and other small animals."""

__version__ = "0.1.0"

#: Where the project can be found, told to every service that is asked; empty until there is such a place.
PROJECT_ADDRESS = ""
