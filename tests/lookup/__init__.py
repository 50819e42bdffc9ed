"""Tests of the lookup command."""
