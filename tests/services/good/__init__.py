"""One module a service, named by its key: a right reply to any question (``reply``), see DEVELOPERS.md."""
