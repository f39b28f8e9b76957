"""Trials and jars: designed, printed, read back, shown, and handed to the bed they belong to."""
