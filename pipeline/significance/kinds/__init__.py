"""What each kind of beat makes of its tallies, a module a kind."""
