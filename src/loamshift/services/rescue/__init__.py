"""How to put right a bed that has had too much."""
