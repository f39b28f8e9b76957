"""What a further test of a bed is worth."""
