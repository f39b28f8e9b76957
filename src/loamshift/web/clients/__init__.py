"""Clients and their gardens, with the plan one draws on."""
