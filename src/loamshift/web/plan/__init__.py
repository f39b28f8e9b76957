"""The plan page: quick advice, a bed's letter with its facts editable, and its numbers opened."""
