"""Loam Serif and Loam Sans, our cut of two open families; see OFL.txt beside them."""
