"""Ingest: raw match files of one source, checked and flattened; nothing dropped silently."""
