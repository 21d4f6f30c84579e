"""The layout of our own, `ball-tables`: its contract, its reader, and the tables of its page."""
