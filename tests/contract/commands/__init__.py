"""What each command prints with ``--json``: one module a command, by its name."""
