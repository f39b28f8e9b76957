"""What could be done, simulated with the same possible beds."""
