"""Tests of the labels."""
