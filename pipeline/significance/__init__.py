"""Significance: estimates, intervals, tests and verdicts over match tallies."""
