"""Explain: everything behind one number, and the same number made again."""
