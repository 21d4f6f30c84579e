"""Contracts: what the stages hand to each other, as types that are checked when they are read."""
