"""Beds: all of them, one added or edited, its history, and what it needs next."""
