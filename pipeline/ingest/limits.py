"""The most that a match may hold: far beyond any that was played, within what our tables can."""

from __future__ import annotations

MOST_INNINGS = 99  # super overs too
MOST_DELIVERIES = 999  # of one over
MOST_WICKETS = 99  # of one delivery
MOST_MARKED = 999  # overs of an innings that the file marks as miscounted
MOST_PEOPLE = 100  # of one match
MOST_ROWS_OF_A_MATCH = 100_000
