"""What goes on, how much, when, and what a test decides."""
