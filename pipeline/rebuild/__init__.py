"""Rebuild: an archived edition made again from what it holds, and held against itself."""
