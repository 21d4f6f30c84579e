"""Findings of format 2: their series had seasons where there are periods now."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from msgspec import to_builtins

from pipeline.contracts.files import as_json, as_written, read_json
from pipeline.contracts.findings import Findings
from pipeline.contracts.upgrades.format_2 import findings_of_format_2
from pipeline.errors import UserError
from tests.conftest import ROOT

FILE = ROOT / "tests" / "older" / "findings_of_format_1.json"


def older(folder: Path, number: int = 2) -> Path:
    """Today's findings as that format wrote them."""
    found = json.loads(as_json(read_json(FILE, Findings)))
    points = json.loads(FILE.read_text("utf-8"))["series"]
    assert all("season" in point for each in points.values() for point in each) and points
    path = folder / f"format-{number}.json"
    path.write_text(json.dumps({**found, "series": points, "format": number}), "utf-8")
    return path


def test_every_point_is_read_with_its_label(tmp_path: Path):
    path = older(tmp_path)
    then: dict[str, list[dict[str, Any]]] = json.loads(path.read_text("utf-8"))["series"]
    found = read_json(path, Findings)
    assert {name: len(points) for name, points in found.series.items()} == {
        name: len(points) for name, points in then.items()
    }
    for name, points in found.series.items():
        for point, written in zip(points, then[name], strict=True):
            assert point.label == written["season"] and point.part is False
            told = to_builtins(point)
            assert all(told[key] == value for key, value in written.items() if key != "season")


def test_what_is_not_of_a_series_is_as_it_was(tmp_path: Path):
    path = older(tmp_path)
    written = json.loads(path.read_text("utf-8"))
    made = findings_of_format_2(written)
    assert {name for name in made if made[name] != written[name]} == {"series"}
    assert read_json(path, Findings).findings == as_written(read_json(FILE, Findings)).findings


def test_format_1_is_taken_through_both_steps():
    """Its effects had no errors, and its points no label."""
    found = read_json(FILE, Findings)
    assert all(finding.effect.se >= 0 for finding in found.findings if finding.effect)
    assert {point.label for points in found.series.values() for point in points} >= {"2009"}


def test_a_point_without_its_season_is_refused(tmp_path: Path):
    path = older(tmp_path)
    broken = json.loads(path.read_text("utf-8"))
    del next(iter(broken["series"].values()))[0]["season"]
    path.write_text(json.dumps(broken), "utf-8")
    with pytest.raises(UserError, match="not what an older version wrote: it lacks 'season'"):
        read_json(path, Findings)
