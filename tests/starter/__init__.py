"""Tests of the starter list's tables: they hold together, and they agree with what is published."""
