"""What a field needs spot by spot: a map that must earn its place, zones, and a rate for each."""
