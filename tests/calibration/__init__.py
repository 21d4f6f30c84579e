"""Simulations with known truth, through the project's own functions."""
