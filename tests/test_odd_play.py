"""Play that may be true or a slip: counted alike in every layout, told in the quality page."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from pipeline.contracts.quality import Odd
from pipeline.ingest.oddities import EXAMPLES, KINDS, merged
from pipeline.ingest.read import read_source
from pipeline.ingest.stage import ingest
from tests.builders import (
    cleaned,
    delivery,
    match,
    quality_of,
    rows_of,
    source,
    write_csv,
    write_folder,
    write_zip,
)

Ball = dict[str, Any]


def ball(batter: str, other: str, bowler: str = "Q Bowl", **wicket: str) -> Ball:
    out = {"kind": wicket["kind"], "player_out": wicket["out"]} if wicket else None
    return {**delivery(1, out), "batter": batter, "non_striker": other, "bowler": bowler}


A, B, C, D, E = "A Batt", "B Batt", "C Batt", "D Batt", "E Batt"
AT = "m2, innings 1, over 1, delivery"
# What is played, and what of it is odd.
CASES: list[tuple[list[Ball], dict[str, list[str]]]] = [
    ([ball(A, B), ball(B, A), ball(A, B, kind="bowled", out=A), ball(C, B)], {}),
    ([ball(A, B, kind="run out", out=B), ball(C, A)], {}),
    ([ball(A, B, kind="retired hurt", out=A), ball(C, B, kind="bowled", out=C), ball(A, B)], {}),
    ([ball(A, B, kind="timed out", out=C), ball(D, B)], {}),
    (
        [ball(A, B, kind="run out", out=C)],
        {"dismissed_at_neither_end": [f"{AT} 1: id-c, run out"]},
    ),
    (
        [ball(A, B), ball(C, B), ball(A, B)],
        {"batters_in_for_nobody": [f"{AT} 2: id-c", f"{AT} 3: id-a"]},
    ),
    (
        [ball(A, B, kind="bowled", out=A), ball(C, D)],
        {"batters_in_for_nobody": [f"{AT} 2: id-c and id-d"]},
    ),
    ([ball(A, A)], {"batters_at_both_ends": [f"{AT} 1: id-a"]}),
    (
        [ball(A, B, bowler=B), ball(A, B), ball(B, A, bowler=B)],
        {"bowlers_who_bat_in_the_innings": ["m2, innings 1: id-b"]},
    ),
]
IDS = {name: f"id-{name[0].lower()}" for name in (A, B, C, D, E, "Q Bowl")}
PEOPLE = [f"info,registry,people,{name},{identity}" for name, identity in IDS.items()]


def both(tmp_path: Path, *played: list[Ball], limit: int = 50) -> list[dict[str, Odd]]:
    """What is odd in matches of some overs each ball of which is its own, by layout."""
    members, files = {}, {}
    for number, balls in enumerate(played, start=1):
        found = match(balls, overs=limit, registry={"people": IDS})
        members[f"m{number}.json"] = found
        info = [*PEOPLE, f"info,overs,{limit}", "info,gender,female"]
        files[f"m{number}_info.csv"] = "\n".join(info)
    folder = write_folder(tmp_path / "rows", files)
    for name, found in members.items():
        write_csv(folder / f"{name[:2]}.csv", rows_of(found, name[:2]))
    given = (source(write_zip(tmp_path / "m.zip", members)), source(folder, "delivery-csv"))
    return [merged(part.tables.odd for part in read_source(each)) for each in given]


@pytest.mark.parametrize(("balls", "wanted"), CASES)
def test_what_is_odd_is_counted_alike_in_every_layout(
    tmp_path: Path, balls: list[Ball], wanted: dict[str, list[str]]
):
    """Before it stands a match that ends with other batters: innings are apart."""
    for odd in both(tmp_path, [ball(D, E)], balls):
        assert set(odd) == set(KINDS)
        assert {kind: each.examples for kind, each in odd.items() if each.count} == wanted


@pytest.mark.parametrize("limit", [1, 2])
def test_overs_past_the_limit_are_counted_once_an_innings(tmp_path: Path, limit: int):
    found = match([])
    found["innings"][0]["overs"] = [{"over": n, "deliveries": [ball(A, B)]} for n in range(4)]
    found["info"]["overs"] = limit
    given = source(write_zip(tmp_path / "m.zip", {"m1.json": found}))
    odd = merged(part.tables.odd for part in read_source(given))["overs_past_the_limit"]
    assert (odd.count, odd.examples) == (
        1,
        [f"m1, innings 1: over {limit + 1} of {limit}"],
    )
    del found["info"]["overs"]
    given = source(write_zip(tmp_path / "m.zip", {"m1.json": found}))
    assert not merged(part.tables.odd for part in read_source(given))["overs_past_the_limit"].count


def test_many_are_counted_and_a_few_are_named(tmp_path: Path):
    for odd in both(tmp_path, *[[ball(A, A)] * 3 for _ in range(4)]):
        told = odd["batters_at_both_ends"]
        assert told.count == 12 and len(told.examples) == EXAMPLES
        assert told.examples[3].startswith("m2, innings 1, over 1, delivery 1")


def test_report_and_quality_page_tell_what_is_odd(tmp_path: Path):
    odd, plain = match([ball(A, A)]), match([ball(A, B)])
    data = cleaned(tmp_path, one={"m1.json": odd}, two={"m2.json": plain})
    report = json.loads((data / "one" / "report.json").read_text("utf-8"))
    at = "m1, innings 1, over 1, delivery 1"
    told = {"count": 1, "examples": [f"{at}: id-a"], "who": [["id-a"]]}
    assert report["odd"]["batters_at_both_ends"] == told
    named = {"count": 1, "examples": [f"{at}: A Batt (id-a)"]}
    assert quality_of(data)["odd"]["batters_at_both_ends"] == named
    page = (data / "quality.html").read_text("utf-8")
    assert "Deliveries with one batter at both ends: 1" in page
    assert "new batters though nobody was out or retired" in page  # looked for, and not found


def test_a_source_without_a_match_has_every_kind_too(tmp_path: Path):
    given = source(write_zip(tmp_path / "m.zip", {"m1.json": "{"}), on_error="quarantine")
    ingest(given, tmp_path / "out")
    report = json.loads((tmp_path / "out" / "report.json").read_text("utf-8"))
    assert report["odd"] == {kind: {"count": 0, "examples": [], "who": []} for kind in KINDS}


SIX = [delivery(1) for _ in range(6)]


@pytest.mark.parametrize(
    ("penalty", "margin", "target", "notes"),
    [
        (None, 5, 7, ("", "")),
        (None, 10, 12, (" (5 apart, as by penalty runs to an innings; none are recorded)",) * 2),
        (None, 9, 9, ("wrong", "wrong")),
        (5, 10, 12, ("", "")),
        (5, 5, 7, (" (right without the 5 penalty runs to an innings)",) * 2),
    ],
)
def test_margins_and_targets_that_differ_by_penalty_runs_say_so(
    tmp_path: Path, penalty: int | None, margin: int, target: int, notes: tuple[str, str]
):
    """Northmoor make 6, and what is awarded to them; Southfen 1."""
    found = match(SIX, outcome={"winner": "Northmoor", "by": {"runs": margin}})
    if penalty:
        found["innings"][0]["penalty_runs"] = {"post": penalty}
    swap = {"batter": "Q Bowl", "non_striker": "D Batt", "bowler": "A Batt"}
    reply = [{"over": 0, "deliveries": [{**delivery(1), **swap}]}]
    found["innings"].append({"team": "Southfen", "overs": reply, "target": {"runs": target}})
    odd = quality_of(cleaned(tmp_path, only={"m1.json": found}))["odd"]
    made = 6 + (penalty or 0)
    for name, note, told in (
        ("margins", notes[0], f"m1: won by {margin} runs; by the balls {made - 1} runs"),
        ("targets", notes[1], f"m1: innings 2 was set {target}, innings 1 made {made}"),
    ):
        note = "" if note == "wrong" else note
        agrees = margin == made - 1
        assert odd[f"{name}_that_disagree"]["examples"] == ([] if agrees else [told + note])
