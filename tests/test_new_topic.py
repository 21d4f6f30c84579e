"""A topic of one's own fits the data that are there, runs, and says what is missing."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from pipeline.config.load import load
from pipeline.errors import UserError
from pipeline.new_topic.command import topic
from pipeline.new_topic.played import Played, played
from pipeline.new_topic.proposed import Asked, proposed
from tests.builders import FORMATS, PLAYERS, cleaned, delivery
from tests.golden.made import made
from tests.league import league
from tests.tallying import played_in

NOBODY = "id,name,batting_hand,bowling_style,tags\n"
SPINNER = "bowling_style in demo_data/players.csv"
ONE_DAY = "domestic one-day"


def row(season: str, first: str, matches: int = 9, last: str = "", **more: Any) -> Played:
    """Of the Cup; it ends on the day on which it begins."""
    told = {"source": "a", "competition": "Cup", "gender": "female", "match_type": ONE_DAY, **more}
    return Played(season=season, first=first, last=last or first, matches=matches, **told)


def seasons(years: range, matches: int = 5, **more: Any) -> list[Played]:
    return [row(str(year), f"{year}-05-02", matches, **more) for year in years]


def both_innings(year: int, day: int, overs: int = 2, **info: Any) -> dict[str, Any]:
    """A match whose sides bat `overs` of six ones each."""
    found = played_in(year, [delivery(1)] * 6, dates=[f"{year}-06-{day:02}"], **info)
    first = found["innings"][0]
    balls = first["overs"][0]["deliveries"]
    first["overs"] = [{"over": at, "deliveries": balls} for at in range(overs)]
    swapped = [{**ball, "batter": "Q Bowl", "non_striker": "R Bowl"} for ball in balls]
    second = [{**ball, "bowler": "A Batt"} for ball in swapped]
    overs_two = [{"over": at, "deliveries": second} for at in range(overs)]
    found["innings"].append({"team": "Southfen", "overs": overs_two})
    found["info"]["players"]["Southfen"] = ["Q Bowl", "R Bowl"]
    return found


def some(years: range, a_year: int = 6, **info: Any) -> list[dict[str, Any]]:
    return [both_innings(year, day + 1, 2, **info) for year in years for day in range(a_year)]


@pytest.fixture()
def written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]):
    """Makes a topic of a league of some matches: its text, and what was said."""

    def write(matches: list[dict[str, Any]], **sheets: str) -> tuple[str, str]:
        project = league(tmp_path / "p", matches, **sheets)
        monkeypatch.chdir(project)
        topic(["my-own"])
        return Path("config/topics/my-own.yaml").read_text("utf-8"), capsys.readouterr().out

    return write


def findings() -> set[str]:
    """Ids of what the topic finds, when it is run as it is; its headlines are among them."""
    found = {
        each.id for each in made(Path.cwd(), "my-own", Path("output/my-own")).findings.findings
    }
    headlines = load("config", only="my-own").topics["my-own"].headlines
    assert headlines and all(any(one.startswith(name) for one in found) for name in headlines)
    return found


def test_without_styles_there_is_no_kind_of_bowler_and_the_sheet_is_named(written):
    text, said = written(some(range(2018, 2022)), players=NOBODY)
    assert "bowler_kind" not in text and "headlines: [rate]" in text
    for told in (text, said):
        assert "Who bowls pace and who spin is not known: fill bowling_style in" in told
        assert SPINNER in told and "output/data/players-to-fill.csv" in told
    assert any(each.startswith("phases.") for each in findings())


def test_with_styles_the_headline_is_of_the_kind_that_is_known(written):
    many = some(range(2016, 2022), a_year=14)
    text, said = written(many, players=PLAYERS.replace("id-a,A Batt,left,,", "id-a,A Batt,,RM,"))
    assert "headlines: [rate, kinds.economy.spin]" in text and "missing" not in text
    assert "is not known" not in said
    assert "kinds.economy.spin" in findings()


def test_one_season_is_two_groups_and_says_so(written):
    text, said = written(some(range(2020, 2021)))
    assert "event:" not in text and "headlines: [innings]" in text
    assert "There is one season of it: no event can be asked about" in said
    assert findings()


def test_two_short_seasons_say_that_there_will_be_no_interval(written):
    text, said = written(some(range(2019, 2021), a_year=2), players=NOBODY)
    assert "before: 1 season " in text
    assert "There are 2 matches before the event and 2 matches after it; under 6" in said
    assert findings()


def test_nothing_to_compare_is_an_error_with_the_cure(tmp_path: Path, monkeypatch):
    monkeypatch.chdir(league(tmp_path / "p", [played_in(2020, [delivery(1)])]))
    with pytest.raises(UserError, match="nothing to compare; Pebble Cup, one-day has one season"):
        topic(["my-own"])
    assert not Path("config/topics/my-own.yaml").exists()


def test_of_two_sources_it_takes_what_no_topic_asks_about(written, capsys):
    demo = some(range(2018, 2022), event={"name": "Tidewater Shield"})
    text, said = written(demo + some(range(2018, 2021), a_year=3))
    assert 'data: {competition: "Pebble Cup", format: one-day}' in text
    assert "It asks about Pebble Cup, one-day. The data also hold Tidewater Shield" in said
    topic(["next"])  # all are asked about: the largest
    assert "It asks about Tidewater Shield" in capsys.readouterr().out
    findings()


def test_a_competition_without_a_name_is_told_by_its_source(tmp_path: Path):
    nameless = both_innings(2020, 1)
    del nameless["info"]["event"]
    data = cleaned(tmp_path, a={"m1.json": both_innings(2019, 1)}, b={"m2.json": nameless})
    rows = played(data / "matches.parquet")
    assert [each.second for each in rows] == [12, 12]
    found = proposed(rows, FORMATS, taken={"Pebble Cup"})
    assert found.asked == Asked("", "one-day", "", "b")


def test_a_season_across_the_day_is_in_neither_window():
    rows = [row("2017/19", "2017-11-01", 4, last="2019-06-30"), row("2018", "2018-05-01", 2)]
    found = proposed([*rows, row("2019", "2019-05-01", 3)], FORMATS)
    assert (found.date, found.before, found.after) == ("2019-05-01", 1, 1)
    assert found.matches == (2, 3)
    across = [row("a", "2018-05-01", last="2020-01-01"), row("b", "2019-05-01", last="2021-01-01")]
    assert proposed(across, FORMATS).date == ""


def test_one_season_makes_a_topic_without_an_event():
    assert proposed([row("2020", "2020-05-01")], FORMATS).date == ""
    assert proposed([row("2020", "2020-05-01", match_type="other")], FORMATS) is None


def test_a_topic_is_of_the_largest_competition_and_its_middle_season():
    """Matches of one format count together; the event is the first day of the middle season."""
    rows = seasons(range(2013, 2020))
    rows.append(row("2013", "2013-06-01", 20, competition="League"))
    rows.append(row("2016", "2016-03-01", 90, match_type="twenty-over"))
    found = proposed(rows, FORMATS)
    assert (found.asked, found.date) == (Asked("Cup", "one-day", "", ""), "2016-05-02")
    assert (found.before, found.after) == (3, 4)


def test_men_and_women_are_not_counted_together():
    rows = [*seasons(range(2018, 2021)), *seasons(range(2018, 2021), 6, gender="male")]
    found = proposed(rows, FORMATS)
    assert found.asked.gender == "male" and found.matches == (6, 12)


@pytest.mark.parametrize(("spin", "pace", "kind"), [(400, 0, "spin"), (399, 400, "pace")])
def test_a_kind_needs_enough_balls_on_both_sides(spin: int, pace: int, kind: str):
    rows = seasons(range(2018, 2020), balls=900, spin=spin, pace=pace)
    assert proposed(rows, FORMATS).kind == kind
    less = [rows[0]._replace(spin=0, pace=0), rows[1]]
    assert proposed(less, FORMATS).kind == ""
