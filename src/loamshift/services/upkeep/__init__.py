"""How a pH is held."""
