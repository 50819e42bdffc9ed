"""Tests of finding candidates."""
