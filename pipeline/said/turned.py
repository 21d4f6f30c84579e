"""What a number that goes the wrong way is said of, and what is right of that: to be published."""

from __future__ import annotations

from pipeline.contracts.facts import Fact
from pipeline.said.judgement import Judged
from pipeline.said.naming import name_of
from pipeline.said.number_heard import Heard
from pipeline.said.numbers_of import of_fact
from pipeline.said.saying import side_fits, verb_fits, way_fits
from pipeline.said.targets import MOVES, WINDOW, Target
from pipeline.said.topic_known import Known
from pipeline.wording.fact_forms import way_of
from pipeline.wording.phrases import APART, FELT, TIME


def turned(judged: Judged, heard: Heard, said: str, known: Known) -> str | None:
    """'nine per cent up; it is nearly nine per cent down'; a side by its name.

    None of what goes the right way, and where neither a direction nor a side was said.
    """
    target = judged.target
    if judged.result != "wrong direction" or target is None or target.fact is None:
        return None
    if target.role in MOVES:
        return None if way_fits(target, heard, judged.end) else _move(target.fact, said)
    if target.role != "level":
        return None
    if not side_fits(target, heard):
        others = [each for each in known.sides_of(target) if each.side == 1 - (target.side or 0)]
        return _level(others[0], said, known) if others else None
    if not verb_fits(target, heard):
        down, up = TIME if WINDOW in target.names else APART
        was, is_now = (up, down) if heard.way > 0 else (down, up)
        return f"{said}, {was}; it is {target.fact.spoken}, {is_now}"
    return _level(target, said, known)


def _move(fact: Fact, said: str) -> str | None:
    way = way_of(fact)
    pair = next((pair for pair in (TIME, APART, FELT) if way in pair), None)
    if pair is None:
        return None
    other = pair[1 - pair.index(way)]
    told = said if other in said.lower().split() else f"{said} {other}"
    return f"{told}; it is {fact.spoken}"


def _level(target: Target, said: str, known: Known) -> str | None:
    if target.fact is None:
        return None
    name = name_of(of_fact(target.fact, target.finding, known.view))
    return f"{said} for {name}; it is {target.fact.spoken}"
