"""Checking whole collections."""
