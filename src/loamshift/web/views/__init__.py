"""The pages, one file per topic; a view fetches, calls one service, and hands over."""
