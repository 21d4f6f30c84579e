"""Correction: a number that was said is another now; what used it, and a draft of what to say."""
