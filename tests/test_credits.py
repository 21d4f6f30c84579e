"""Whose balls they are, and how many: only what a brief stands on is credited and counted."""

from __future__ import annotations

import shutil
from pathlib import Path

import duckdb
import pytest

from pipeline.archive.contents import Asked
from pipeline.archive.edition import edition_of
from pipeline.config.load import load
from pipeline.contracts.selection import Amount
from pipeline.editions.findings import read_findings
from pipeline.wording.credits import credited
from tests.builders import cleaned
from tests.conftest import ROOT
from tests.golden.made import Made
from tests.league import brief
from tests.test_older_editions import OLD
from tests.untidy import GROUNDS, HEAD, PLAYERS, matches

SHINGLE = """  - id: shingle
    path: config/sources.yaml
    layout: match-json
    title: Shingle Cup scorebooks
    publisher: Nobody
    licence: CC0-1.0
    retrieved: 2026-12-24
    notice: "Scorebooks of the Shingle Cup, copied by hand"
"""
RATE = "{id: rate, kind: before_after, measure: run_rate, by: phase}"
CONTROL = "control: {name: the shingle, competition: Shingle Cup}"


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The untidy league from two sources: the Shingle Cup is from one of its own."""
    folder = tmp_path_factory.mktemp("sources") / "league"
    named = {f"m{at}.json": found for at, found in enumerate(matches())}
    own = [name for name, one in named.items() if one["info"]["event"]["name"] == "Shingle Cup"]
    sources = {
        "tidewater": {name: one for name, one in named.items() if name not in own},
        "shingle": {name: named[name] for name in own},
    }
    cleaned(folder, {"players": PLAYERS, "grounds": GROUNDS}, **sources)
    (folder / "output").mkdir()
    (folder / "data").rename(folder / "output" / "data")
    shutil.copytree(ROOT / "config", folder / "config")
    with (folder / "config" / "sources.yaml").open("a", encoding="utf-8") as file:
        file.write(SHINGLE)
    for name in ("demo_data", "templates"):
        (folder / name).symlink_to(ROOT / name)
    return folder


def asked(project: Path, *beats: str, head: str = HEAD) -> Made:
    return brief(project, "".join(f"  - {beat}\n" for beat in beats), head)


def balls(project: Path, condition: str) -> tuple[int, int]:
    """(matches, valid balls) of the two cups that the topic is of."""
    data = project / "output" / "data"
    query = (
        f"SELECT count(DISTINCT match_id), count_if(legal) FROM '{data}/deliveries.parquet' d "
        f"JOIN '{data}/matches.parquet' m USING (match_id) "
        f"WHERE m.competition IN ('Pebble Cup', 'Sand Cup') AND {condition}"
    )
    (found,) = duckdb.connect().execute(query).fetchall()
    return found


@pytest.mark.parametrize(
    ("beats", "head", "ids"),
    [
        ([RATE], HEAD, ["tidewater"]),
        ([RATE[:-1] + ", " + CONTROL + "}"], HEAD, ["tidewater", "shingle"]),
        ([RATE], HEAD.replace("[Pebble Cup, Sand Cup]", "Shingle Cup"), ["shingle"]),
        (
            [RATE[:-1] + ", where: {competition: [Pebble Cup, Sand Cup]}}"],
            HEAD.replace("competition: [Pebble Cup, Sand Cup], ", ""),
            ["tidewater"],
        ),
    ],
)
def test_only_sources_with_a_ball_in_the_brief_are_credited(
    project: Path, beats: list[str], head: str, ids: list[str]
):
    """On the page with their notices, in the data line, on every frame; a control's are in it."""
    found = asked(project, *beats, head=head)
    lines = {"tidewater": "Tidewater Shield scorers", "shingle": "Shingle Cup scorebooks"}
    assert [source.id for source in found.content.sources] == ids
    assert len(found.content.notices) == len(ids)
    for text in (found.content.data_line, found.points, *(each.foot[0] for each in found.framed)):
        assert [name for name, line in lines.items() if line in text] == ids, text
    for words in found.framed:
        assert ("copied by hand" in " ".join(words.foot)) == ("shingle" in ids)


def test_an_edition_credits_them_alone_and_is_dated_by_them(
    project: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.chdir(project)
    for beat, ids, day in (
        (RATE, ["tidewater"], "2026-11-25"),
        (RATE[:-1] + ", " + CONTROL + "}", ["tidewater", "shingle"], "2026-12-24"),
    ):
        asked(project, beat)
        config = load(project / "config", only="asked")
        output = project / "output"
        sealed = edition_of(
            Asked(config, "asked", output / "asked", output / "data", output), 1, ""
        )
        assert [source.id for source in sealed.sources] == ids
        assert sealed.date.isoformat() == day


def test_what_is_compared_and_what_is_behind_the_trend_are_counted_apart(project: Path):
    """Each ball once, though two beats have it; by a count of its own over the clean tables."""
    middle = "{id: mid, kind: before_after, measure: run_rate, where: {phase: middle}}"
    early = "{id: early, kind: phases, measure: run_rate, bands: [1-6], where: {overs: 1-20}}"
    found = asked(project, middle, early)
    overs = "(d.over BETWEEN 11 AND 40 OR d.over <= 20)"
    windows = "m.season IN ('2018', '2019', '2019/20', '2021', '2022', '2023')"
    held = found.findings.data
    assert isinstance(held.compared, Amount) and isinstance(held.counted, Amount)
    assert (held.compared.matches, held.compared.balls) == balls(project, f"{windows} AND {overs}")
    trend = f"m.date >= DATE '2016-01-01' AND {overs}"  # 2015 is too short an end
    assert (held.counted.matches, held.counted.balls) == balls(project, trend)
    assert held.compared.balls < held.counted.balls < held.balls
    parts = found.content.data_line.split(" · ")
    assert parts[:6] == [
        f"compared: {held.compared.matches} matches",
        f"{held.compared.balls:,} balls",
        "2018–2019/20 against 2021–2023, 23 matches in neither window: 23 earlier",
        f"behind the trend: {held.counted.matches} matches",
        f"{held.counted.balls:,} balls",
        f"{held.counted.first} to {held.counted.last}",
    ]
    assert "against" in parts[2]
    facts = {fact.id: fact.value for fact in found.facts}
    assert facts["data.compared-balls"] == held.compared.balls
    assert facts["data.counted-matches"] == held.counted.matches


@pytest.mark.parametrize("series", [False, True])
def test_behind_the_trend_are_its_periods_alone(project: Path, series: bool):
    """Not those begun before its first; but a series beside it has every match.

    Seasons overlap, so that it goes by years from the event's day: the first whole one begins on
    5 June 2018. What is compared is counted all the same.
    """
    when = "date: 2021-06-05, before: 3 seasons, after: 2 seasons, trend_from: '2018'"
    head = HEAD.replace("date: 2020-01-01, before: 3 seasons, after: 3 seasons", when)
    trend = ["{id: t, kind: trend, measure: run_rate, where: {innings: '1'}}"] if series else []
    found = asked(project, RATE, *trend, head=head)
    assert found.findings.windows.inside == ["2021"]
    compared = "m.season IN ('2018', '2019', '2019/20', '2022', '2023')"
    more = " OR d.innings = '1'" if series else ""
    wanted = f"(m.date >= DATE '2018-06-05' OR {compared}{more})"
    held = found.findings.data.counted
    assert (held.matches, held.balls) == balls(project, wanted)
    assert held.balls < found.findings.data.balls


def test_groups_beside_windows_have_dates_of_their_own(project: Path):
    groups = "{id: g, kind: groups, measure: run_rate, between: {innings: ['1', '2']}}"
    found = asked(project, RATE, groups)
    held = found.findings.data.compared
    assert held is not None and held == found.findings.data.counted
    assert found.content.data_line.split(" · ")[2:4] == [
        f"{held.first} to {held.last}",
        "over time 2018–2019/20 against 2021–2023, 23 matches in neither window: 23 earlier",
    ]


def test_groups_and_a_series_alone_are_counted_once(project: Path):
    no_event = "".join(f"{line}\n" for line in HEAD.splitlines() if not line.startswith("event"))
    groups = "{id: g, kind: groups, measure: run_rate, between: {innings: ['1', '2']}}"
    trend = "{id: t, kind: trend, measure: run_rate}"
    first = asked(project, groups, head=no_event)
    assert first.findings.data.compared == first.findings.data.counted
    assert (
        first.content.data_line.startswith("compared: ") and "trend" not in first.content.data_line
    )
    held = asked(project, trend, head=no_event)
    assert held.findings.data.compared is None
    assert held.content.data_line.startswith(f"{held.findings.data.matches} matches · ")


def test_an_edition_that_does_not_say_credits_all_of_its_topic():
    data = read_findings(OLD / "data", "verify").data
    assert (data.sources, data.compared, data.counted) == (None, None, None)
    source = load(ROOT / "config").sources["tidewater"]
    assert credited([source], data) == [source]
