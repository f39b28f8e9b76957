"""Trials: what a design can show, what is expected of it, and what came back."""
