"""What to do about alkaline water."""
