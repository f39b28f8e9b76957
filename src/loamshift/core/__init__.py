"""Pure numbers: soil chemistry, rates and statistics. No files, clock, calendar or randomness."""
