"""How the pH will move, and how sure that is."""
