"""What a material brings, how fast, at what cost and up to which limit."""
