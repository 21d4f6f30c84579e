"""Editions: where they are, what they say, and what differs between two of them."""
