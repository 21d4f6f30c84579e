"""The quality report: what is held against the balls, and what can't be."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import Config, load
from pipeline.config.project import Project
from pipeline.errors import UserError
from pipeline.ingest.stage import ingest
from pipeline.metrics.stage import tallies_of
from tests.builders import (
    FORMATS,
    cleaned,
    delivery,
    match,
    quality_of,
    rows_of,
    source,
    write_zip,
)
from tests.conftest import ROOT


def played(target: dict[str, Any], **outcome: Any) -> dict[str, Any]:
    """Northmoor make six, Southfen one."""
    found = match([delivery(6)], outcome=outcome)
    ball = {**delivery(1), "batter": "Q Bowl", "non_striker": "R Bowl", "bowler": "A Batt"}
    reply = {"team": "Southfen", "overs": [{"over": 0, "deliveries": [ball]}], "target": target}
    found["innings"].append(reply)
    return found


@pytest.mark.parametrize(("overs", "checked"), [(50, 1), (40, 0), (49.5, 0)])
def test_a_reduced_target_is_not_held_against_the_balls(tmp_path: Path, overs, checked: int):
    """Then the side with fewer runs may have won, and the target is not one more than was made."""
    found = played({"runs": 2, "overs": overs}, winner="Southfen", by={"wickets": 10})
    report = quality_of(cleaned(tmp_path, only={"m1.json": found}))
    assert report["checked"]["winners"] == report["checked"]["targets"] == checked
    assert report["checked"]["winners_not_checked"] == 1 - checked
    odd = {name: report["odd"][f"{name}_that_disagree"]["count"] for name in ("winners", "targets")}
    assert odd == {"winners": checked, "targets": checked}


def test_a_tie_decided_otherwise_is_not_held_against_the_balls(tmp_path: Path):
    found = played({"runs": 7}, result="tie", eliminator="Southfen")
    report = quality_of(cleaned(tmp_path, only={"m1.json": found}))
    assert report["checked"] == {"winners": 0, "targets": 1, "winners_not_checked": 1}
    assert report["odd"]["winners_that_disagree"]["count"] == 0


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("empty", ["every file set aside", "a table of a header alone"])
def test_data_without_a_match_are_reported_as_none(tmp_path: Path, empty: str):
    """Clean tables with nothing in them; what asks of them is told so."""
    if empty == "every file set aside":
        given = source(write_zip(tmp_path / "m.zip", {"m1.json": "{"}), on_error="quarantine")
    else:
        path = tmp_path / "m.csv"
        path.write_text(",".join(rows_of(match([delivery()]))[0]) + "\n", "utf-8")
        given = source(path, "delivery-csv", on_error="quarantine")
    data = tmp_path / "data"
    ingest(given, data / given.id)
    config = Config(tmp_path, Project(title="test"), {given.id: given}, {}, FORMATS)
    report = clean(views.clean(config), data)
    assert not any(report.counts.values()) and not any(report.checked.values())
    assert set(report.coverage.values()) == {None}
    asked = "title: A question\nquestion: What?\ndata: {format: one-day}\nbeats:\n"
    shutil.copytree(ROOT / "config", tmp_path / "config")
    (tmp_path / "config" / "topics" / "asked.yaml").write_text(
        f"{asked}  - {{id: a, kind: trend, measure: economy}}\n", "utf-8"
    )
    view = views.metrics(load(tmp_path / "config", only="asked"), "asked")
    with pytest.raises(UserError, match="there is no match in the data"):
        tallies_of(view, data)


def test_overs_and_innings_that_are_missing_are_counted(tmp_path: Path):
    found = played({"runs": 7})
    report = quality_of(cleaned(tmp_path / "whole", only={"m1.json": found}))
    assert report["odd"]["innings_that_lack_overs"]["count"] == 0
    assert report["odd"]["matches_that_lack_an_innings"]["count"] == 0
    overs = found["innings"][0]["overs"]
    overs.append({"over": overs[-1]["over"] + 3, "deliveries": overs[-1]["deliveries"]})
    report = quality_of(cleaned(tmp_path / "torn", only={"m1.json": found}))
    (example,) = report["odd"]["innings_that_lack_overs"]["examples"]
    assert example == f"m1, innings 1: 2 of {overs[-1]['over'] + 1}"
