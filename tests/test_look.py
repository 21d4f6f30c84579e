"""A stranger's table, as a new user brings it in: look, take the marks away, decide, build."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pyarrow.parquet as pq
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pipeline.config.load import load_sources
from pipeline.contracts.files import read_json
from pipeline.contracts.quality import SourceReport
from pipeline.errors import UserError
from pipeline.ingest.stage import ingest
from pipeline.look.command import look
from pipeline.look.mapped import mapped
from pipeline.look.sampled import Column
from tests.conftest import ROOT
from tests.foreign_tables import Ball, balls, database, odd_parquet, semicolons, truth

TRIES = 2
FILLED = {
    "title": "Pebble Cup",
    "publisher": "Pebble Scorers",
    "licence": "CC0-1.0",
    "competition": "Pebble Cup",
    "gender": "female",
}


@pytest.fixture()
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the configuration as it ships, and the demo's file, which is not read."""
    shutil.copytree(ROOT / "config", tmp_path / "config")
    (tmp_path / "demo_data").mkdir()
    (tmp_path / "demo_data" / "tidewater-shield.zip").touch()
    monkeypatch.chdir(tmp_path)
    return tmp_path


def sources() -> Path:
    return Path("config/sources.yaml")


def taken(said: str) -> None:
    """The marks taken away by the command that is printed."""
    command = next(line.strip() for line in said.splitlines() if "sed -i" in line)
    subprocess.run(command, shell=True, check=True)


def decided(**more: str) -> None:
    """Every TODO written out, as a person does; `more` are words of the table's own."""
    lines = []
    for line in sources().read_text("utf-8").splitlines():
        key = line.partition(":")[0].strip().strip('"')
        if "TODO" in line and "date_format" not in line:
            first = re.search(r"one of ([^,\"]+)", line)  # of the types that formats.yaml names
            line = (
                f"{line.partition(':')[0]}: {more.get(key) or (first or [0, FILLED.get(key)])[1]}"
            )
        lines.append(line)
    sources().write_text("\n".join(lines) + "\n", "utf-8")


def read(identity: str) -> SourceReport:
    ingest(load_sources()[identity], Path("made"))
    return read_json(Path("made/report.json"), SourceReport)


def counted(report: SourceReport) -> dict[str, int]:
    return {name: getattr(report, name) for name in ("matches", "deliveries", "runs", "wickets")}


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
    before = sources().read_text("utf-8")
    look([file])
    said = capsys.readouterr().out
    assert f"its {todo} TODO" in said and "missing" not in said
    assert sources().read_text("utf-8").startswith(before)
    assert set(load_sources()) == {"tidewater"}, "a proposal changes nothing"
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
    made = pq.read_table("made/deliveries.parquet").to_pylist()
    for row, ball in zip(made, found, strict=True):
        assert row["batter_id"] == f"{ball['batter']} (female, {ball['batting_team']})"
        for name in ("match_id", "innings", "over", "delivery", "runs_batter", "wides", "legbyes"):
            assert row[name] == ball[name], name
        assert (row["dismissal"] or "") == ball["dismissal"]
    days = {
        row["match_id"]: str(row["date"])
        for row in pq.read_table("made/matches.parquet").to_pylist()
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


def test_a_second_look_has_a_name_of_its_own(project: Path):
    semicolons(project / "balls.csv")
    look(["balls.csv"])
    look(["balls.csv"])
    text = sources().read_text("utf-8")
    assert "- id: balls\n" in text and "- id: balls-2\n" in text


SYNONYMS = {
    "match_id": ["match", "Match ID", "game_no", "fixture", "MatchKey"],
    "date": ["date", "Match Date", "start_date", "DatePlayed"],
    "season": ["season", "Year", "season_year"],
    "innings": ["innings", "Inns", "inning_no", "InningsNumber"],
    "over": ["over", "Over No", "overs", "over_number", "OverNum"],
    "batting_team": ["batting_team", "Team Batting", "bat_side", "BattingClub"],
    "bowling_team": ["bowling_team", "Fielding Side", "bowlingteam", "opposition"],
    "batter": ["batter", "Striker", "batsman_name", "batswoman", "OnStrike"],
    "non_striker": ["non_striker", "NonStriker", "non-striker name", "partner", "other batter"],
    "bowler": ["bowler", "Bowler Name", "bowler_full_name"],
    "runs_batter": ["runs_batter", "runs off bat", "batsman_runs", "BatRuns", "runs"],
    "wides": ["wides", "Wd", "wide_runs"],
    "noballs": ["noballs", "No Balls", "nb", "no_ball_runs"],
    "byes": ["byes", "Bye", "bye_runs"],
    "legbyes": ["legbyes", "LegByes", "lb", "leg_bye_runs"],
    "dismissal": ["dismissal", "how out", "WicketType", "dismissal_kind", "mode of dismissal"],
    "player_out": ["player_out", "Player Dismissed", "batsman_out", "who_out", "PlayerOut"],
    "venue": ["venue", "Ground", "stadium", "match venue"],
}
OTHERS = ["fielder", "umpire", "cumulative", "speed", "notes"]
FOUND = balls()


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_columns_under_any_synonym_in_any_order_are_mapped_right(data: st.DataObject):
    """Renamed, shuffled, with columns of no use between them: each is found, and none falsely."""
    names = {ours: data.draw(st.sampled_from(theirs)) for ours, theirs in SYNONYMS.items()}
    columns = [Column(names[ours], [str(ball[ours]) for ball in FOUND]) for ours in names]
    extra = data.draw(st.lists(st.sampled_from(OTHERS), unique=True))
    columns += [
        Column(name, [str(at * 7 % 150 + 20) if at % 3 else "x" for at in range(len(FOUND))])
        for name in extra
    ]
    shuffled = data.draw(st.permutations(columns))
    chosen = {ours: guess.column.name for ours, guess in mapped(shuffled).items()}
    assert chosen == names
