"""A page for a class: one material on one soil, layer by layer."""
