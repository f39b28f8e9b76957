"""How to take a sample."""
