"""One file per question a person asks."""
