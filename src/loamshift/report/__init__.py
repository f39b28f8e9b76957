"""Domain objects to letters and tables; draws what it is given and computes nothing."""
