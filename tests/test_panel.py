"""A headline asked in other ways: each way is what a rebuild of those matches alone finds."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from pipeline.contracts.finding import Finding
from pipeline.contracts.notes import OneCarries
from pipeline.contracts.panel import Choice, Panel
from pipeline.contracts.parts import Span
from tests.clubs import CLUBS, GROUNDS, HEAD, clubs, without
from tests.league import brief, findings

BEATS = """  - {id: rate, kind: before_after, measure: economy}
  - {id: apart, kind: gap, measure: economy, between: {bowler_kind: [pace, spin]}}
  - {id: dots, kind: before_after, measure: dot_share}
  - {id: long, kind: trend, measure: run_rate}
  - {id: wins, kind: before_after, measure: win_share, where: {batting_team: [Foxley, Harrowby]}}
"""
ASKED = {
    "rate": "rate.economy",
    "apart": "apart.economy",
    "dots": "dots.dot_share",
    "long": "long.run_rate",
    "wins": "wins.win_share",
}
HEADLINES = f"[{', '.join(ASKED)}]"
DAYS = HEAD.replace("2012 to 2016", "4 years").replace("2017 to 2021", "4 years")
DAYS = DAYS.replace("date: 2017-01-01", "date: 2016-06-05")
# All matches before the event but one of the first season and one of the last.
FEW = "season < '2017' AND NOT (day(date) = 8 AND season IN ('2012', '2016'))"
UNEQUAL = HEAD.replace("2017 to 2021", "2017 to 2018")


@pytest.fixture(scope="module")
def one_club(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Nothing changes but in the matches of Quillport."""
    return clubs(tmp_path_factory.mktemp("clubs") / "league", club="Quillport", worth=30)


@pytest.fixture(scope="module")
def asked(one_club: Path) -> dict[str, Finding]:
    return findings(one_club, BEATS, HEAD, HEADLINES)


def panel(finding: Finding) -> Panel:
    assert finding.panel is not None
    return finding.panel


def way(finding: Finding, kind: str, what: str | None = None) -> Choice:
    (found,) = [
        choice
        for choice in panel(finding).choices
        if choice.kind == kind and what in (None, choice.what)
    ]
    return found


def told(finding: Finding) -> Span:
    return finding.told.difference if finding.kind == "share" else finding.told.change


def same_numbers(choice: Choice, rebuilt: Finding) -> None:
    """Value, ends, verdict and matches of a way are those of a headline that was asked so."""
    span = told(rebuilt)
    near = pytest.approx((span.value, span.low, span.high), rel=1e-9, abs=1e-12)
    assert (choice.value, choice.low, choice.high) == near
    assert choice.verdict == rebuilt.verdict


def alone(project: Path, head: str, beat: str) -> Finding:
    """The headline of one beat, alone in its family, so that its interval is one of 95 %."""
    return findings(project, BEATS, head, f"[{beat}]")[ASKED[beat]]


WAYS = [
    ("side", "Quillport", "'Quillport' IN (team_1, team_2)", HEAD),
    ("ground", "Moor Top", "venue = 'Moor Top'", HEAD),
    ("period", "2014", "season = '2014'", HEAD),
    ("longer", "both", "false", HEAD.replace("2012", "2011").replace("2021", "2022")),
    ("shorter", "both", "false", HEAD.replace("2012", "2013").replace("2021", "2020")),
]


@pytest.mark.parametrize(("kind", "what", "condition", "head"), WAYS)
def test_a_way_is_what_a_rebuild_of_its_matches_finds(
    one_club: Path, tmp_path: Path, kind: str, what: str, condition: str, head: str
):
    project = without(one_club, tmp_path / "rest", condition)
    chosen = [beat for beat in ASKED if (kind, beat) != ("ground", "wins")]  # wins are at two
    for beat in chosen:
        whole = alone(one_club, HEAD, beat)
        same_numbers(way(whole, kind, what), alone(project, head, beat))


def test_the_match_that_is_left_out_moves_it_most(one_club: Path, tmp_path: Path):
    for beat in ("rate", "apart"):
        whole = alone(one_club, HEAD, beat)
        choice = way(whole, "match")
        names, _, day = choice.what.rpartition(", ")
        one, other = names.split(" v ")
        gone = f"date = '{day}' AND team_1 = '{one}' AND team_2 = '{other}'"
        rest = alone(without(one_club, tmp_path / beat, gone), HEAD, beat)
        same_numbers(choice, rest)
        other_match = f"date = DATE '{day}' + 1"
        another = alone(without(one_club, tmp_path / f"{beat}-other", other_match), HEAD, beat)
        value = told(whole).value
        assert abs(told(rest).value - value) > abs(told(another).value - value)


def test_unequal_windows_and_windows_of_days_are_asked_alike(one_club: Path, tmp_path: Path):
    project = without(one_club, tmp_path / "rest", "'Quillport' IN (team_1, team_2)")
    for head in (UNEQUAL, DAYS):
        whole = alone(one_club, head, "rate")
        same_numbers(way(whole, "side", "Quillport"), alone(project, head, "rate"))
    for kind, years in (("shorter", "3 years"), ("longer", "5 years")):
        rebuilt = alone(one_club, DAYS.replace("4 years", years), "rate")
        same_numbers(way(alone(one_club, DAYS, "rate"), kind, "both"), rebuilt)
    assert panel(whole).stretch == "year"
    labels = [one.what for one in panel(whole).choices if one.kind == "period"]
    assert labels == [f"year from 5 Jun {year}" for year in range(2012, 2020)]


def test_every_ground_side_and_season_is_left_out_once(asked: dict[str, Finding]):
    choices = panel(asked["rate.economy"]).choices
    names = {kind: [one.what for one in choices if one.kind == kind] for kind in ("ground", "side")}
    assert names == {"ground": sorted(GROUNDS), "side": sorted(CLUBS)}
    seasons = [one.what for one in choices if one.kind == "period"]
    assert seasons == [str(year) for year in range(2012, 2022)]
    windows = [(one.kind, one.what) for one in choices if one.kind in ("longer", "shorter")]
    assert windows == [
        ("shorter", "both"),
        ("longer", "before"),
        ("longer", "after"),
        ("longer", "both"),
    ]
    kinds = [one.kind for one in choices]
    assert kinds.count("match") == kinds.count("scale") == 1 and "reduced" not in kinds
    assert "scale" not in [one.kind for one in panel(asked["wins.win_share"]).choices]


def test_a_club_that_is_all_of_a_change_carries_it(one_club: Path, asked: dict[str, Finding]):
    finding = asked["rate.economy"]
    assert finding.verdict == "changed"
    turned = [(one.kind, one.what) for one in panel(finding).turned]
    assert turned == [("side", "Quillport"), ("held still", "batting_team, bowling_team")]
    assert way(finding, "side", "Quillport").value == pytest.approx(0.0, abs=1e-12)
    (note,) = [note for note in finding.notes if isinstance(note, OneCarries)]
    assert (note.kind, note.name, note.verdict) == ("side", "Quillport", "can't tell")
    held = asked["apart.economy"]
    assert not panel(held).turned
    assert not [note for note in held.notes if isinstance(note, OneCarries)]
    made = brief(one_club, BEATS, HEAD, "[rate]")
    count = len(panel(finding).choices)
    assert count == 28
    # Alone in its family its interval is narrower. Where nearly all agree that is for the chart.
    told = ("twenty-seven", "twenty-eight")
    lines = [line for page in made.content.beats for line in page.lines]
    assert lines and not [line for line in lines if all(each in line for each in told)]
    assert (
        "Economy: leave the matches of Quillport out, and it can’t be told."
        in made.content.cautions
    )
    (fact,) = [fact for fact in made.facts if fact.id.endswith("same-in")]
    assert fact.display == f"{count - 1} of {count}" and fact.value == count - 1
    (drawing,) = made.content.beats[0].parts[0].panels
    assert drawing.of == made.content.beats[0].parts[0].rows[0].name
    assert drawing.chart == "rate.economy.panel" and "Quillport" in drawing.alt
    assert not made.content.beats[1].parts[0].panels


def test_a_season_that_is_all_of_a_change_carries_it(tmp_path: Path):
    """Over many seasons an odd one makes the error of all; three bear no error of their own."""
    project = clubs(tmp_path / "league", season=2018, worth=90)
    few = HEAD.replace("2012 to 2016", "2016 to 2016").replace("2017 to 2021", "2017 to 2018")
    finding = alone(project, few, "rate")
    (note,) = [note for note in finding.notes if isinstance(note, OneCarries)]
    assert (note.kind, note.name, note.stretch) == ("period", "2018", "season")
    assert alone(project, HEAD, "rate").because == "usual_between_periods"


def test_what_bears_no_error_by_seasons_is_no_other_way(tmp_path: Path):
    """Of four seasons three are left, whose matches alone would answer an easier question."""
    project = clubs(tmp_path / "league", season=2018, worth=40)
    four = HEAD.replace("2012 to 2016", "2015 to 2016").replace("2017 to 2021", "2017 to 2018")
    finding = alone(project, four, "rate")
    assert finding.effect and finding.effect.cluster and finding.effect.cluster.wider
    kinds = {one.kind for one in panel(finding).choices}
    assert not {"period", "shorter"} & kinds and {"side", "ground", "longer"} <= kinds


def test_what_leaves_too_few_matches_is_shown_as_refused(one_club: Path, tmp_path: Path):
    few = f"NOT 'Quillport' IN (team_1, team_2) AND {FEW}"
    project = without(one_club, tmp_path / "few", few)
    finding = alone(project, HEAD, "rate")
    choice = way(finding, "side", "Quillport")
    assert (choice.value, choice.low, choice.high) == (None, None, None)
    assert (choice.refused, choice.verdict, choice.same) == ("few_matches", "can't tell", False)
    (note,) = [note for note in finding.notes if isinstance(note, OneCarries)]
    assert note.refused and note.name == "Quillport"
    rest = without(project, tmp_path / "rest", "'Quillport' IN (team_1, team_2)")
    assert alone(rest, HEAD, "rate").refused == "few_matches"
    made = brief(project, BEATS, HEAD, "[rate]")
    assert (
        "Economy: leave the matches of Quillport out, and there are too few matches to tell."
        in made.content.cautions
    )


def test_what_all_matches_have_in_common_is_not_left_out(one_club: Path, tmp_path: Path):
    project = without(one_club, tmp_path / "own", "NOT 'Quillport' IN (team_1, team_2)")
    sides = [one.what for one in panel(alone(project, HEAD, "rate")).choices if one.kind == "side"]
    assert sides == [club for club in CLUBS if club != "Quillport"]


def test_only_headlines_that_have_a_number_are_asked_again(one_club: Path, tmp_path: Path):
    found = findings(one_club, BEATS, HEAD, "[rate]")
    assert [each.id for each in found.values() if each.panel] == ["rate.economy"]
    project = without(one_club, tmp_path / "few", FEW)
    finding = alone(project, HEAD, "rate")
    assert finding.refused == "few_matches" and finding.panel is None
    made = brief(project, BEATS, HEAD, "[rate]")
    (drawn,) = [chart for chart in made.charts if chart.chart == "rate.economy.panel"]
    assert (
        drawn.title == "There is no number here to ask again"
        and "only two matches before" in drawn.alt
    )
    assert not made.content.beats[0].parts[0].panels
    shutil.rmtree(project)
