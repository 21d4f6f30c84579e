"""Sentences whose number is still right and whose verdict turned: they are to be corrected too."""

from __future__ import annotations

from contextlib import chdir
from dataclasses import replace
from pathlib import Path

import pytest
from msgspec import structs

from pipeline.archive.contents import Asked
from pipeline.config.load import load
from pipeline.contracts.errata import InCaptions
from pipeline.errata.captions_printed import captions_printed
from pipeline.errata.records import Archived, Record, built_record
from pipeline.errata.search import Places, in_captions, of_edition

TOPIC, FINDING = "long-grass", "kinds.economy.spin-middle"
SPIN = "Spin’s economy in the middle overs"


@pytest.fixture(scope="module")
def then(built: Path) -> Record:
    """The brief as it is built."""
    with chdir(built):
        config = load(Path("config"), only=TOPIC)
        out = built / "output"
        return built_record(Asked(config, TOPIC, out / TOPIC, out / "data", out / "archive"))


@pytest.fixture(scope="module")
def now(then: Record) -> Record:
    """The same numbers, of which one finding's verdict can't be told any more."""
    findings = [
        structs.replace(one, verdict="can't tell") if one.id == FINDING else one
        for one in then.findings.findings
    ]
    facts = [
        structs.replace(one, verdict="can't tell") if one.finding == FINDING else one
        for one in then.side.facts
    ]
    return replace(
        then,
        findings=structs.replace(then.findings, findings=findings),
        side=then.side._replace(facts=facts),
    )


def asked(path: Path, text: str, then: Record, now: Record) -> tuple[InCaptions, InCaptions]:
    """What is found in a script by the change, and of a whole edition."""
    path.write_text(text, "utf-8")
    old = Archived(*(getattr(then, name) for name in then.__dataclass_fields__), number=1)
    names = [one.id for one in then.side.facts if one.finding == FINDING]
    (whole,) = of_edition(old, now, [path], Places(path.parent, path.parent)).captions
    return in_captions(path, names, now, [old]), whole


@pytest.mark.parametrize(
    "text",
    [
        f"{SPIN} fell by nearly nine per cent.",
        f"{SPIN} came down to four point one an over.",
    ],
)
def test_a_right_number_whose_verdict_turned_is_told(
    then: Record, now: Record, tmp_path: Path, text: str
):
    for found in asked(tmp_path / "a.txt", text, then, now):
        assert [one.verdict is None for one in found.places] == [False]
        said = "\n".join(captions_printed(found))
        assert "The verdict does not stand: it was ‘changed’, and is ‘can’t tell’" in said
        assert "may stay as said" not in said


@pytest.mark.parametrize(
    "text",
    [
        f"{SPIN} may have fallen by nearly nine per cent, but we can’t tell.",
        f"{SPIN} was 4.47 an over before.",
    ],
)
def test_what_stands_on_no_verdict_may_stay(then: Record, now: Record, tmp_path: Path, text: str):
    for found in asked(tmp_path / "a.txt", text, then, now):
        assert all(one.right and one.verdict is None for one in found.places)
    for found in asked(tmp_path / "b.txt", f"{SPIN} fell by nearly nine per cent.", then, then):
        assert found.places == []
