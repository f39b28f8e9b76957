"""Products: what stands on the shelf, price lists, labels, and claims about materials."""
