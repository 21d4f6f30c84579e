"""Transcripts: what is to be said, or was said, as sentences: scripts and captions of any form."""
