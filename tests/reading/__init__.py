"""Tests of reading tags."""
