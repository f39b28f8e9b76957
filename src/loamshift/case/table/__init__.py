"""Long tables whose columns are keys of the case file, read block by block."""
