"""Look: the head of a table that nobody has described, and a proposal of how to read it."""
