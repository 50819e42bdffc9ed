"""Benchmarks: they print ratios and are run by hand."""
