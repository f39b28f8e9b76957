"""Advice on soil pH: whether to change it, with what, how much, when, and how it will hold."""

__version__ = "0.1.0"
