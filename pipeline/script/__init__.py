"""Script: what is said as a text to be bent by hand, its numbers filled from the facts."""
