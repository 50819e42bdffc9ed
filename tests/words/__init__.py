"""Tests of names, authorships and spellings."""
