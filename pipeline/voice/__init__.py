"""The voice: a sentence knows what it tells, and the forms that can tell it stand in a file."""
