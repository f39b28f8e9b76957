"""Many beds in one run: what each row of a long table comes to."""
