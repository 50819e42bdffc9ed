"""A small service, added by the steps that DEVELOPERS.md names: its module and its good reply."""
