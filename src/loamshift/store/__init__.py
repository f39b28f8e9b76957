"""The user's clients, gardens, beds, letters, shelf and the record of every change."""
