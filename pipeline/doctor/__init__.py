"""Doctor: is everything there that a brief needs, and what to do about what is not."""
