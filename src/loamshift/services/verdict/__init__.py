"""Whether the pH should be changed at all."""
