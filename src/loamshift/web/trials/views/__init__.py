"""The pages of this folder, one file per topic; a view fetches, asks a service, and hands over."""
