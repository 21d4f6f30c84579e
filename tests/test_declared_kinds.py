"""A kind of beat is declared once and has one module in each room; nothing falls through."""

from __future__ import annotations

import re

import pytest

from pipeline.charts.of_kinds import DRAWINGS, drawing_of
from pipeline.config.kinds import KINDS, BeforeAfter
from pipeline.significance.of_kinds import FINDINGS
from pipeline.wording import of_kinds
from tests.conftest import ROOT

ROOMS = ("significance", "wording", "charts")


def test_every_kind_has_its_module_in_every_room_and_no_other_is_there():
    for room in ("config", *ROOMS):
        folder = ROOT / "pipeline" / room / "kinds"
        assert {path.stem for path in folder.glob("*.py")} - {"__init__", "base"} == set(KINDS), (
            room
        )
    assert set(FINDINGS) == set(of_kinds.WORDS) == set(DRAWINGS) == set(KINDS)


def test_a_kind_that_a_room_does_not_know_is_an_error():
    beat = BeforeAfter(id="b", kind="before_after", measure=["economy"])
    object.__setattr__(beat, "kind", "unheard_of")
    with pytest.raises(KeyError, match="unheard_of"):
        drawing_of(beat)
    with pytest.raises(KeyError, match="unheard_of"):
        of_kinds.extra_heading(beat)


# Words that are of nothing but a kind; 'share' is a kind of measure too, 'groups' are other things.
WORDS = sorted(set(KINDS) - {"share", "players", "groups", "trend"})
NAMED = re.compile(rf"[\"']({'|'.join(WORDS)})[\"']")


def test_no_module_asks_for_a_kind_by_its_name():
    """Only the kinds' own modules and the registry of each room write a kind's word."""
    found = [
        f"{path.relative_to(ROOT)}: {line.strip()}"
        for path in sorted((ROOT / "pipeline").rglob("*.py"))
        if "kinds" not in path.parent.name and path.name != "of_kinds.py"
        for line in path.read_text("utf-8").splitlines()
        if re.search(r"\bkind\b", line) and re.search(r"==|!=|\bin\b", line) and NAMED.search(line)
    ]
    assert found == []
