"""Shipped facts with provenance, read with the standard library only."""
