"""Whether a popular claim holds."""
