"""Frozen objects of the trade and the decisions taken on them: no files, clock or unit texts."""
