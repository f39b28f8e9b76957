"""How a trial is laid out, and how small a difference it can show."""
