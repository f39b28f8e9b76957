"""Cards: one sheet each for the shed, the class, the tank and the walk with the spade."""
