"""The top sheet: which cautions stand on it, in which order, and of which number."""

from __future__ import annotations

from pathlib import Path

from tests.league import brief, league, scored
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
    assert rival.startswith("In the same seasons there was also the new ball")
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
    assert len(told) == 3 and told[1].startswith("In the same seasons")
    assert "of the balls are of unknown bowling kind" in told[2]
