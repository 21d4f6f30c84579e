"""Slots: the draft of a script, whose numbers are places for facts; reading and filling it."""
