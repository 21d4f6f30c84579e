"""Every form of the voice with three findings each, to be read aloud: `make voice` prints them.

What fills the slots is what the random findings of the property tests fill them with, the three
that are most unlike in length: the shortest, one of the middle, the longest.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from random import Random
from unittest.mock import patch

from pipeline.contracts.over_time import Yardstick
from pipeline.voice.forms import voice
from pipeline.voice.sentence import Told
from pipeline.wording import of_kinds
from pipeline.wording.yardstick import yardstick_said
from tests.any_kinds import any_case
from tests.outcomes import OUTCOMES, matrix
from tests.word_makers import BEAT, ECONOMY, EVENT, FORM, moved

SEED, DRAWN = 20, 4000
# What no drawn finding fills.
FILLINGS = {
    **{"count": "nineteen", "same": "seventeen", "way": "without the 2018 season"},
    **{"name": "the early overs", "wanted": "eight seasons", "there": "four"},
    **{"units": "seasons", "who": "who was bowling", "size": "about half a run an over"},
    **{"what": "spin’s economy at the death", "reach": "from two per cent down to nine up"},
    **{"alike": "like for like", "rose": "rose", "plain": "nearly two per cent up"},
    **{"least": "three hundred balls", "fewer": "nobody has fewer", "of": "two of twelve"},
    **{
        "ways": "moved, both up",
        "none": "that any one of them moved",
        "stand": "stands",
        "names": "",
    },
    **{"whom": "the quicks", "share": "about half", "are": "are", "kind": "left-arm quicks"},
    **{"mean": "the spinners’ mean", "first": "a third", "second": "half", "did": "bowled"},
    **{"balls": "the balls in the middle overs", "margin": "five per cent", "most": "all of it"},
    **{"between": "between ten and sixty", "event": "the long rope", "year": "2017"},
    **{"ends": "2016 and 2017", "tried": "nine", "every": "season", "lean": "2016 and 2017"},
    **{"early": "2015", "late": "2018", "more": "more", "each": "for each that luck makes"},
    **{"reason": "there are only three matches", "tested": "forty", "swings": "from year to year"},
    **{"title": "Spin at the death", "before": "everybody", "now": "the spinners"},
    **{"periods": "seasons", "that": "a fall"},
}
OTHERWISE = {
    "together": {"names": "the run rate or spin’s economy"},
    "players.list": {"who": "twelve bowlers"},
}


def unfilled(outcome: str) -> Mapping[str, str]:
    """What fills an outcome that no drawn finding fills."""
    return {**FILLINGS, **OTHERWISE.get(outcome, {})}


def filled() -> dict[str, list[Mapping[str, str]]]:
    """Slots as they were filled, by outcome."""
    slots: defaultdict[str, list[Mapping[str, str]]] = defaultdict(list)
    kept = Told.__new__

    def told(cls: type[Told], outcome: str, **more: str) -> Told:
        slots[outcome].append(more)
        return kept(cls, outcome, **more)

    rng = Random(SEED)
    one = Yardstick(sd=0.021, low=0.012, high=0.04, periods=14, unit="season")
    with patch.object(Told, "__new__", told):
        for _ in range(DRAWN):
            of_kinds.said(*any_case(rng), FORM, EVENT)
        for outcome in (*OUTCOMES, *matrix()):
            outcome.said()
        yardstick_said(moved(0.1, 0.03, yardstick=one), BEAT, ECONOMY, FORM)
    return dict(slots)


def three(found: list[Mapping[str, str]]) -> list[Mapping[str, str]]:
    """The shortest, the middle and the longest; of fewer, all."""
    each = {tuple(sorted(one.items())): one for one in found}
    ordered = sorted(each.values(), key=lambda one: (sum(map(len, one.values())), str(one)))
    at = {0, len(ordered) // 2, len(ordered) - 1} if ordered else set()
    return [ordered[each] for each in sorted(at)]


def aloud() -> Iterator[str]:
    """The lines to read."""
    slots = filled()
    for outcome, forms in voice().of.items():
        yield f"\n{outcome}"
        for at in range(len(forms)):
            for fill in three(slots.get(outcome, [])) or [unfilled(outcome)]:
                yield f"  {at + 1}. {voice().put(outcome, at, fill)}"


if __name__ == "__main__":
    for line in aloud():
        print(line)
