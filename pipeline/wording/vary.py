"""Variety without chance: the same finding always picks the same words."""

from __future__ import annotations

from zlib import crc32


def vary(identity: str, what: str, *options: str) -> str:
    """One of the options, by the finding's id and what is being said of it."""
    return options[crc32(f"{identity} {what}".encode()) % len(options)]
