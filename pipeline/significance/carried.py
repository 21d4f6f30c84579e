"""Whether one season, ground or side carries a change, or a headline that held, by itself."""

from __future__ import annotations

from pipeline.contracts.finding import Change, Gap
from pipeline.contracts.notes import OneCarries
from pipeline.contracts.panel import Choice, Panel, Stretch
from pipeline.significance.told_scale import told_of

LEFT = 0.5  # of a headline: with less left of it, what was left out carried it
MAY_CARRY = ("period", "ground", "side")


def carrier(finding: Change | Gap, panel: Panel) -> list[OneCarries]:
    """The period, ground or side without which the least is left, if that is another answer.

    That an interval is wider with fewer matches makes nothing a carrier: of a change under half of
    it is left, or it goes the other way, or too little is left to tell; of one that held, it is
    changed without.
    """
    if finding.verdict == "can't tell":
        return []
    own = told_of(finding.told, finding.kind).value
    found = [
        choice
        for choice in panel.turned
        if choice.kind in MAY_CARRY and _carried(choice, finding, own)
    ]
    return [_note(min(found, key=lambda one: _left(one, own)), panel.stretch, own)] if found else []


def _note(choice: Choice, stretch: Stretch, own: float) -> OneCarries:
    return OneCarries(
        kind=choice.kind,
        name=choice.what,
        stretch=stretch,
        verdict=choice.verdict,
        other_way=choice.verdict == "changed" and _left(choice, own) < 0,
        refused=choice.refused is not None,
    )


def _carried(choice: Choice, finding: Change | Gap, own: float) -> bool:
    if choice.refused:
        return True
    if finding.verdict == "held":
        return choice.verdict == "changed"
    return _left(choice, own) < LEFT


def _left(choice: Choice, own: float) -> float:
    """What part of the change is left, below nought if it goes the other way; none if refused."""
    return choice.value / own if choice.value is not None and own else 0.0
