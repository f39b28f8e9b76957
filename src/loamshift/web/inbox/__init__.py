"""Cases waiting: people's questions in their own words, the most dangerous first."""
