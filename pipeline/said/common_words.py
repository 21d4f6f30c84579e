"""Everyday words that say nothing of what a number is of: verbs, talk, and ways to point."""

from __future__ import annotations

from pipeline.said.word_lists import words

VERBS = frozenset(words("everyday.verbs_said"))
PRONOUNS = frozenset(words("everyday.pronouns"))
WHOSE = frozenset(words("everyday.whose"))
TALK = frozenset(words("everyday.talk")) | VERBS | PRONOUNS
