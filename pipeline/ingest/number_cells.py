"""What a cell's text says: a whole number, a flag. The one reading of them, for every layout.

Spaces around a cell are no part of it. Software that knows no blank whole number writes 12.0 for
12. Any other spelling (0x10, 1e2, +4, 1_000, digits of other scripts) is no number: programs read
them in different ways, so that a guess might not be what its writer meant.
"""

from __future__ import annotations

import re

FLAGS = {"1": 1, "1.0": 1, "true": 1, "0": 0, "0.0": 0, "false": 0}
_NUMBER = re.compile(r"((?:-(?=0*[1-9]))?[0-9]{1,9})(\.0)?")  # -0 is none
_BALL = re.compile(r"[0-9]+(\.[0-9]+)?")


def number_of(text: str) -> int | None:
    """The whole number that a cell says, of up to nine digits; None for a blank, or for none."""
    found = _NUMBER.fullmatch(text.strip())
    return int(found[1]) if found else None


def count_of(text: str, most: int) -> int | None:
    """The same of what is counted: 0 to `most`, without a sign."""
    text = text.strip()
    number = None if text.startswith("-") else number_of(text)
    return number if number is not None and number <= most else None


def flag_of(text: str) -> bool | None:
    """Yes or no; None for a blank, or for what is neither."""
    found = FLAGS.get(text.strip().lower())
    return None if found is None else bool(found)


def is_ball(text: str) -> bool:
    """Whether a cell says a ball as it is labelled: 0.1, the tenth 0.10, or a plain number."""
    return bool(_BALL.fullmatch(text.strip()))
