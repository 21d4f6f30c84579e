"""A form as it is written in the file, made alike: apostrophes, spaces, words."""

from __future__ import annotations

import re


def written(form: str) -> str:
    """With the apostrophes that are printed, and single spaces."""
    return re.sub(r"\s+", " ", re.sub(r"(?<=\w)'(?=\w)", "’", form)).strip()


def plain_words(form: str) -> list[str]:
    """Its words without their stops, in small letters; slots are words."""
    return re.findall(r"[\w’{}]+", form.lower())
