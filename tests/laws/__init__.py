"""Laws of a letter: what must hold of every answer, and random cases to hold it to."""
