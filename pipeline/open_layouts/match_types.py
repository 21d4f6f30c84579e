"""Forms of a match: the trade's words, and the codes that the two open layouts have for them.

The only place that knows a code: readers of these layouts translate, and so does the reader of
formats.yaml, so that one written for codes goes on.
"""

from __future__ import annotations

# Our word -> what it is; the words that a page, a setting or a table of our own has.
WORDS = {
    "test": "a Test match",
    "multi-day": "any other match of more than one day",
    "one-day": "limited overs, fifty a side or thereabouts",
    "domestic one-day": "the same between sides of one country, where that is told apart",
    "twenty-over": "twenty overs a side",
    "international twenty-over": "the same between countries, where that is told apart",
}
CODES = {
    "Test": "test",
    "MDM": "multi-day",
    "ODI": "one-day",
    "ODM": "domestic one-day",
    "IT20": "international twenty-over",
    "T20": "twenty-over",
}


def in_words(match_type: str) -> str:
    """The trade's word for a code; what is no code stays as it is written."""
    return CODES.get(match_type, match_type)
