"""The top sheet: its cards, what people say, its cautions and their order, the line on the data."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from pipeline.brief.top_sheet import Card, card, data_line, expected
from pipeline.config.kinds import KINDS, AnyBeat
from pipeline.config.topic import Expectation
from pipeline.contracts.finding import Finding
from pipeline.errors import UserError
from tests.brief_makers import FOURS, brief_view, family, findings_of
from tests.chart_makers import ECONOMY, FORM, SCORERS
from tests.fact_makers import fix
from tests.finding_makers import change, drift, effect
from tests.league import brief, league, scored
from tests.seasons import season, selection
from tests.tallying import HEAD

BEAT = "  - {id: a, kind: before_after, measure: run_rate, by: phase}"
ALSO = "also:\n  - {name: the new ball, date: 2019-06-02}\n"
HEADLINES = "[a.run_rate.powerplay, a.run_rate.middle]"


def matches(later: int = 9) -> list[dict]:
    """Seven matches of the powerplay, then nine of a third more; the middle overs in some."""
    made = [scored(2019, 60 + day % 3, 60, day) for day in range(1, 8)]
    made += [scored(2020, 80 + day % 3, 60, day) for day in range(1, 10)]
    for at, found in enumerate(made):
        if at not in (0, 7 + later):
            balls = scored(2020, 100 + at % 4 + 30 * (at > 6), 60)["innings"][0]["overs"][0]
            found["innings"][0]["overs"].append({**balls, "over": 20})
    return made


def test_what_could_turn_the_answer_over_stands_first(tmp_path: Path):
    """The notes are made in another order: few matches first."""
    made = brief(league(tmp_path / "league", matches()), BEAT, HEAD + ALSO, HEADLINES)
    drift, rival, few = made.content.cautions
    assert drift.startswith("Drift can’t be tested")
    assert rival.startswith("In the same stretch there was also the new ball seven months earlier")
    assert few.startswith("Only 6 matches on the thinner side")


def test_of_one_caution_the_worst_case_is_told(tmp_path: Path):
    """Six matches of the middle overs, seven of the powerplay: the six, however they are named."""
    project = league(tmp_path / "league", matches())
    for headlines in (HEADLINES, "[a.run_rate.middle, a.run_rate.powerplay]"):
        told = brief(project, BEAT, HEAD, headlines).content.cautions
        assert [line for line in told if line.startswith("Only ")] == [
            "Only 6 matches on the thinner side: the interval is wide and could yet move."
        ]


def test_three_cautions_at_most_and_what_is_not_told_among_them(tmp_path: Path):
    """Of kinds unknown to all balls, and a number that can't be called: before few matches."""
    by_kind = BEAT.replace("by: phase", "by: [bowler_kind]")
    made = matches()
    for at, found in enumerate(made):
        for ball in found["innings"][0]["overs"][0]["deliveries"][: 20 + 10 * (at % 3)]:
            ball["bowler"] = "C Batt"
    told = brief(league(tmp_path / "league", made), by_kind, HEAD + ALSO, "[a]").content.cautions
    assert len(told) == 3 and told[1].startswith("In the same stretch")
    assert "of the balls are from bowlers whose kind we don’t know" in told[2]


ASKED: AnyBeat = KINDS["before_after"].model_validate(
    {"id": "b", "kind": "before_after", "measure": "economy", "where": {"innings": "1"}}
)


def economy(**more: Any) -> Card:
    found = change("b.economy.death", values={"phase": "death"}, **more)
    return card(found, ASKED, ECONOMY, FORM)


def test_a_card_has_its_number_both_values_and_both_verdicts():
    made = economy(effect=effect(0.1, 0.45), drift=drift())
    assert (made.id, made.beat, made.verdict) == ("b.economy.death", "b", "changed")
    assert made.name == "Economy, overs 41–50, first innings"
    assert (made.number, made.fact) == ("+10.0%", "b.economy.death.change")
    assert made.sides == "before 4.50, after 4.95 runs an over"
    assert made.detail == "+0.45 runs an over; 95% interval +9.0 to +11.0 per cent"
    assert made.second == "beyond the drift" and economy(drift=None).second is None
    assert (str(made.lead), made.why) == ("up about 10%", "")


def test_a_card_that_can_t_be_told_leads_with_that_and_says_why():
    made = economy(verdict="can't tell", because="lost_among_many", family_size=5)
    assert str(made.lead) == "can’t tell"
    assert made.why == "By itself it would look like a rise, but it is one of 5 numbers tested."


def test_a_share_s_card_is_in_points():
    share = change("b.fours", kind="share", effect=effect(0.1, 1.1))
    made = card(share, ASKED, FOURS, FORM)
    assert (made.number, made.fact) == ("+1.1 pts", "b.fours.difference")
    assert made.detail == "95% interval +1.1 to +1.1 points"


def test_a_refused_headline_says_why_and_has_no_number():
    made = economy(refused="few_matches", drift=drift())
    assert (made.number, made.detail) == ("no number", "there are only one hundred matches")
    assert (made.fact, made.sides, made.second) == (None, "", None)
    assert made.verdict == "can't tell" and made.name.startswith("Economy")
    assert (
        str(made.lead) == "too little to say" and made.why == "There are only one hundred matches."
    )


def test_what_people_say_stands_beside_what_was_found():
    says: dict[str, Any] = {"say": "They go for more", "means": "rises"}
    found: dict[str, Finding] = {"b.economy": change(), "b.fours": change(verdict="held")}
    items = [Expectation(finding=name, **says) for name in found]
    rows = expected(brief_view([ASKED], expected=items), found)
    assert [row.say for row in rows] == ["They go for more"] * 2
    assert [row.word for row in rows] == ["The data agree", "The data disagree"]
    assert [row.found for row in rows] == [
        "Economy in the first innings rose by about ten per cent.",
        "Economy in the first innings held.",
    ]
    assert expected(brief_view([ASKED]), found) == []


def test_every_expectation_of_no_finding_is_told():
    names = ("b.econmy", "b.economy", "c.economy.spin.middle")
    items = [Expectation(say="So they say", finding=name, means="rises") for name in names]
    with pytest.raises(UserError) as caught:
        expected(brief_view([ASKED], expected=items), {"b.economy": change()})
    assert [str(problem) for problem in caught.value.problems] == [
        "topic.yaml: expected[1].finding: no finding 'b.econmy' (did you mean 'b.economy'?)",
        "topic.yaml: expected[3].finding: no finding 'c.economy.spin.middle' (valid: b.economy)",
    ]


def test_the_line_on_the_data_has_all_that_there_is_and_no_more():
    other = SCORERS.model_copy(update={"credit": "Data: the other scorers"})
    view = brief_view([ASKED], credits=[SCORERS, other])
    plain = findings_of(windows=None, family=family(looked_at=1))
    assert data_line(view, plain).split(" · ") == [
        *("80 matches", "48,000 balls", "2016-04-01 to 2017-09-30"),
        "1 comparison, 0 headlines among them",
        "Data: Pebble Cup scorers; Data: the other scorers",
    ]
    chosen = selection([season(2016), season(2017)], None).data
    chosen.unknown_balls = {"bowler_kind": 480}
    full = findings_of(data=chosen, corrections=[fix(), fix()], family=family(headlines=1))
    assert data_line(view, full).split(" · ")[3:-1] == [
        *("2016 against 2017", "known, of the balls: bowling kind 99.0%", "2 corrections"),
        "1,234 comparisons, 1 headline among them",
    ]
