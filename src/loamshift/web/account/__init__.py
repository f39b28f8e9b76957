"""Accounts: signing in, passwords and keys, people of the office, and settings."""
