"""One module a service: URL out, statements in."""
