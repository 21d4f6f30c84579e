"""Forms of a text that all stages share: capitals, lists, spans, parts of an id; no words."""

from __future__ import annotations

import re
import unicodedata


def capitalised(text: str) -> str:
    return text[:1].upper() + text[1:]


def listed(items: list[str]) -> str:
    """'a', 'a and b', 'a, b and c'."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} and {items[-1]}"


def possessive(name: str) -> str:
    return f"{name}’" if name.endswith("s") else f"{name}’s"


def span(labels: list[str]) -> str:
    """Seasons as '2012–2016', or one alone."""
    return labels[0] if len(labels) == 1 else f"{labels[0]}–{labels[-1]}"


def slug(text: str) -> str:
    """A value as part of an id: 'Kelpgate Ground' as 'kelpgate-ground'."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-") or "x"
