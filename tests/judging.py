"""A stand-in for what judges sentences: it knows whole sentences, and nothing of cricket."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pipeline.contracts.script_check import ClaimChecked, NumberChecked, SentenceChecked
from pipeline.transcripts.passage import Passage


def number(said: str, result: str, **more: Any) -> NumberChecked:
    """Where it stands is filled in by the judge."""
    return NumberChecked(said=said, begins=0, ends=0, result=result, **more)


def claim(said: str, kind: str, **more: Any) -> ClaimChecked:
    return ClaimChecked(said=said, begins=0, ends=0, kind=kind, **{"why": "not shown", **more})


class StandIn:
    """Judges what it was told of: words of a sentence, and what is to be said of them."""

    def __init__(self, *known: NumberChecked | ClaimChecked) -> None:
        self.known = known

    def __call__(self, passages: Sequence[Passage]) -> list[SentenceChecked]:
        return [self._judged(passage) for passage in passages]

    def _judged(self, passage: Passage) -> SentenceChecked:
        here = [_placed(one, passage.text) for one in self.known if one.said in passage.text]
        return SentenceChecked(
            text=passage.text,
            line=passage.line,
            start=passage.start,
            numbers=[one for one in here if isinstance(one, NumberChecked)],
            claims=[one for one in here if isinstance(one, ClaimChecked)],
        )


def _placed(one: Any, text: str) -> Any:
    fields: Mapping[str, Any] = {name: getattr(one, name) for name in one.__struct_fields__}
    begins = text.index(one.said)
    return type(one)(**{**fields, "begins": begins, "ends": begins + len(one.said)})
