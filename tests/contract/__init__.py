"""The contract with other programs, as tests."""
