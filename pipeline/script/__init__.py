"""Script: the script that a person keeps of a topic, and what moved under it."""
