"""What must be checked, asked or said before anyone acts."""
