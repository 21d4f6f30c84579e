"""A number with the words that stand around it, as rules ask whether it is a statistic."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from pipeline.said.no_statistic import SMALL
from pipeline.said.read_numbers import Said
from pipeline.said.tokens import Token, joined
from pipeline.said.units import Unit

_LEADING, _FOLLOWING = 4, 5  # words that are looked at on either side


@dataclass(frozen=True)
class Around:
    """`unit` is one of ours that follows it, if any; `named` are what names of subjects take up."""

    tokens: Sequence[Token]
    said: Said
    unit: Unit | None
    named: Sequence[tuple[int, int]] = ()

    @cached_property
    def before(self) -> str:
        first = self.said.first
        return joined(self.tokens[max(0, first - _LEADING) : first])

    @cached_property
    def after(self) -> str:
        return joined(self.tokens[self.said.last : self.said.last + _FOLLOWING])

    @property
    def words(self) -> str:
        """Its own."""
        return joined(self.tokens[self.said.first : self.said.last])

    @property
    def all_before(self) -> str:
        return joined(self.tokens[: self.said.first])

    @property
    def sentence(self) -> str:
        return joined(self.tokens)

    @property
    def opening(self) -> Token:
        """Its first word or figure."""
        return self.tokens[self.said.first]

    @property
    def is_small(self) -> bool:
        """Whether it is a whole number that may be a word: 'two things'."""
        return self.said.whole and self.said.value <= SMALL
