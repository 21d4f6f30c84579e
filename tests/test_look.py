"""A stranger's table, as a new user brings it in: look, take the marks away, decide, build."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pyarrow.parquet as pq
import pytest

from pipeline import batches
from pipeline.config.load import load_sources
from pipeline.errors import UserError
from pipeline.look.command import look
from tests.conftest import ROOT
from tests.foreign_tables import Ball, database, odd_parquet, semicolons, truth
from tests.looking import (
    counted,
    decided,
    read,
    sources,
    stranger,
    taken,
)


@pytest.fixture()
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return stranger(tmp_path, monkeypatch)


@pytest.mark.parametrize(
    ("make", "file", "todo"),
    [(semicolons, "balls.csv", 6), (database, "club.db", 6), (odd_parquet, "odd.parquet", 5)],
)
def test_a_foreign_table_is_in_at_the_second_try(
    project: Path,
    capsys: pytest.CaptureFixture[str],
    make: Callable[[Path], list[Ball]],
    file: str,
    todo: int,
):
    """First try: nothing decided, and told so with line; second: everything counted."""
    found = make(project / file)
    before, ids = sources().read_text("utf-8"), list(load_sources())
    look([file])
    said = capsys.readouterr().out
    assert f"its {todo} TODO" in said and "missing" not in said
    assert sources().read_text("utf-8").startswith(before)
    assert list(load_sources()) == ids, "a proposal changes nothing"
    taken(said)
    identity = file.partition(".")[0]
    with pytest.raises(UserError, match=r"sources.yaml:\d+:\d+: .*still TODO: title, publisher"):
        read(identity)
    decided()
    assert counted(read(identity)) == truth(found)


def test_what_is_read_is_what_was_played(project: Path, capsys: pytest.CaptureFixture[str]):
    """Row by row: order, sides, people, runs and dismissals are those of its maker."""
    found = database(project / "club.db")
    look(["club.db"])
    taken(capsys.readouterr().out)
    decided()
    read("club")
    made = pq.read_table(batches.files_of(Path("made"), "deliveries")).to_pylist()
    people = {row["id"]: row["name"] for row in pq.read_table("made/people.parquet").to_pylist()}
    for row, ball in zip(made, found, strict=True):
        for role in ("batter", "non_striker", "bowler"):
            assert people[row[f"{role}_id"]] == ball[role]
        if ball["dismissal"]:
            assert people[row["player_out_id"]] in (ball["player_out"], ball["other_player_out"])
        for name in ("match_id", "innings", "over", "delivery", "runs_batter", "wides", "legbyes"):
            assert row[name] == ball[name], name
        assert row["wickets"] == bool(ball["dismissal"]) + bool(ball["other_dismissal"])
    days = {
        row["match_id"]: str(row["date"])
        for row in pq.read_table(batches.files_of(Path("made"), "matches")).to_pylist()
    }
    assert days == {ball["match_id"]: ball["date"] for ball in found}


def test_the_proposal_says_how_cells_are_written(project: Path, capsys: pytest.CaptureFixture[str]):
    semicolons(project / "balls.csv")
    look(["balls.csv"])
    said = capsys.readouterr().out
    text = sources().read_text("utf-8")
    for line in (
        "delimiter: semicolon",
        'encoding: "windows-1252"',
        'date_format: "DD/MM/YYYY"',
        "overs_from: 0",
        "season: year",
        'blank: ["NA"]',
        "ct: caught",
        "NB: noballs",
    ):
        assert re.search(rf"^# .*{re.escape(line)}", text, re.MULTILINE), line
    assert "dates are day first" in said and "overs begin with 0" in said
    assert "batter            Striker" in said and "not used    Umpire" in said


def test_the_readme_shows_what_is_printed(project: Path, capsys: pytest.CaptureFixture[str]):
    text = (ROOT / "README.md").read_text("utf-8")
    shown = text.split("$ .venv/bin/python -m pipeline look balls.csv\n")[1].split("```")[0]
    semicolons(project / "balls.csv")
    look(["balls.csv"])
    printed = unnumbered(capsys.readouterr().out)
    lines = [line for line in unnumbered(shown) if line.strip() != "..."]
    assert len(lines) > 10 and [line for line in lines if line not in printed] == []


def unnumbered(text: str) -> list[str]:
    """Lines, whatever line of sources.yaml they name."""
    return re.sub(r"\d+( to |,)\d+", r"N\1N", text).splitlines()
