"""Script: the one that is kept of a topic, what moved under it, whether all that is said holds."""
