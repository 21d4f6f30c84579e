"""Metrics: per match, the sums that every measure of a topic is made of."""
