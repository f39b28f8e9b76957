"""Pot or ground: what each takes, lasts and promises over five years."""
