"""What to buy: ways to bring the same acid or lime, and what they cost."""
