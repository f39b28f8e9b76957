"""What the readings of a trial show: differences, their intervals, and what looks wrong."""
