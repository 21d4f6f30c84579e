"""Ids of findings: rows of one of two cuts alone, what can't be found, ids for short."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.asked_fact import chief, meant, topic_of
from pipeline.brief.background import citations
from pipeline.config.load import load
from pipeline.config.topic import Cited
from pipeline.contracts.finding import Change
from pipeline.errata.which_fact import asked_for
from pipeline.errors import UserError
from pipeline.explain.command import find_fact
from pipeline.explain.remade import made_again
from tests.fact_makers import archive_facts, edition, fact, write_facts
from tests.league import brief, findings
from tests.tallying import played_in
from tests.test_placed import TOPIC, own_problems, written
from tests.untidy import HEAD, untidy

TWO = "  - {id: kinds, kind: before_after, measure: run_rate, by: [bowler_kind, phase]}\n"
ONE = "  - {id: alone, kind: before_after, measure: run_rate, by: bowler_kind}\n"


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return untidy(tmp_path_factory.mktemp("untidy") / "league")


def told(project: Path, beats: str, headlines: str) -> list[str]:
    return [
        one.removeprefix("kinds.run_rate.") for one in findings(project, beats, HEAD, headlines)
    ]


def test_a_row_of_one_cut_alone_is_told_where_a_headline_asks_for_it(project: Path):
    """And no other such row: each is one look more."""
    plain = told(project, TWO, "[]")
    asked = told(project, TWO, "[kinds.run_rate.pace, kinds.middle]")
    assert not {"pace", "spin", "middle", "death"} & set(plain)
    assert sorted(set(asked) - set(plain)) == ["middle", "pace"]
    assert len(asked) == len(plain) + 2


def test_it_is_what_a_beat_of_that_cut_alone_finds(project: Path):
    """The same comparison, on the same balls, unknown ones of the other cut among them."""
    found = findings(project, TWO + ONE, HEAD, "[kinds.run_rate.pace]")
    row, alone = found["kinds.run_rate.pace"], found["alone.run_rate.pace"]
    assert isinstance(row, Change) and isinstance(alone, Change)
    assert row.asks == alone.asks and row.values == {"bowler_kind": "pace"}
    assert (row.a, row.b, row.effect) == (alone.a, alone.b, alone.effect)


def test_what_is_said_of_the_whole_leans_on_the_finest_rows_only(project: Path):
    """Balls of a row of one cut are in the rows of both: counted twice they would be a mix."""
    found = [
        findings(project, TWO, HEAD, f"[{named}]")["kinds.run_rate"]
        for named in ("kinds", "kinds, kinds.pace, kinds.middle")
    ]
    assert found[0].notes == found[1].notes


@pytest.mark.parametrize(
    ("beat", "row"),
    [
        ("{kind: groups, between: {region: [inland, coast]}, by: [bowler_kind, innings]}", "spin"),
        ("{kind: share, of: {batter_hand: left}, by: [phase, ground]}", "moor-top"),
        ("{kind: share, of: {batter_hand: left}, by: [phase, ground]}", "death"),
        ("{kind: streaks, of: dots, length: 2, by: [innings, home]}", "2"),
        ("{kind: before_after, by: [ground, season]}", "fen-side"),
    ],
)
def test_every_kind_with_two_cuts_has_such_rows(project: Path, beat: str, row: str):
    """Of each of its measures: a beat's tables have the same rows."""
    measure = "measure: run_rate, " if "of:" not in beat else ""
    text = f"  - {{id: b, {measure}{beat[1:]}\n"
    plain = findings(project, text, HEAD)
    named = f"{next(iter(plain))}.{row}"
    found = findings(project, text, HEAD, f"[{named}]")
    added = {f"{each.beat}.{each.measure}.{row}" for each in plain.values()}
    assert set(found) - set(plain) == added and named in added


def test_an_expectation_asks_for_one_too_and_a_control_answers(project: Path):
    control = "control: {name: the chase, where: {innings: '2'}}, where: {innings: '1'}"
    beats = TWO.replace("}", f", {control}}}", 1)
    head = f"{HEAD}expected:\n  - {{say: They did, finding: kinds.pace, means: rises}}\n"
    found = brief(project, beats, head)
    by_id = {each.id: each for each in found.findings.findings}
    assert by_id["kinds.run_rate.pace"].control is not None
    assert [each.say for each in found.content.expected] == ["They did"]
    (beat,) = found.content.beats
    assert "Pace" in [row.name for row in beat.parts[0].rows]


def problems(project: Path, headline: str, beats: str) -> list[str]:
    """What is wrong with a topic of these beats, before any data are read."""
    text = (
        f"{HEAD}headlines: [{headline}]\nexpected:\n  - say: They say so\n    finding: {headline}\n"
    )
    file = written(project, f"{text}    means: rises\nbeats:\n{beats}")
    with pytest.raises(UserError) as caught:
        load(project / "config", only="asked")
    return [str(problem).removeprefix(f"{file}:") for problem in caught.value.problems]


WRONG = [
    ("kinds.pce", TWO, "no finding 'kinds.run_rate.pce' (did you mean 'kinds.run_rate.pace'"),
    (
        "kinds.run_rate.spin-midle",
        TWO,
        "no finding 'kinds.run_rate.spin-midle' (did you mean 'kinds.run_rate.spin-middle'",
    ),
    (
        "kinds.run_rat",
        TWO,
        "no finding 'kinds.run_rate.run_rat' (valid: kinds.run_rate, kinds.run_r",
    ),
    ("kinds.run_rat.pace", TWO, "beat 'kinds' has no measure 'run_rat' (did you mean 'run_rate'?)"),
    (
        "kinds.unknown",
        TWO,
        "no finding 'kinds.run_rate.unknown' (valid: kinds.run_rate.spin-powerplay, kinds.run_r",
    ),
    (
        "kinds.death",
        TWO.replace("by:", "where: {phase: middle}, by:"),
        "no finding 'kinds.run_rate.death' (valid: kinds.run_rate, kinds.run_rate.pace, kinds.r",
    ),
    (
        "b.left",
        "  - {id: b, kind: before_after, measure: run_rate, by: [bowler_arm, batter_hand]}\n",
        "'left' may be of bowling arm or batting hand; ask for it in a beat divided by that one al",
    ),
    (
        "b.spin-2",
        "  - {id: b, kind: gap, measure: run_rate, between: {bowler_kind: [pace, spin]}}\n",
        "no finding 'b.run_rate.spin-2' (did you mean 'b.run_rate.spin'",
    ),
    (
        "b.mx",
        "  - {id: b, kind: mix, measure: run_rate, by: bowler_kind}\n",
        "no finding 'b.run_rate.mx' (did you mean 'b.run_rate.mix'?)",
    ),
    (
        "b.1-7",
        "  - {id: b, kind: phases, measure: run_rate, bands: [1-6, 20-30]}\n",
        "no finding 'b.run_rate.1-7' (did you mean 'b.run_rate.1-6'?)",
    ),
    (
        "b.2018",
        "  - {id: b, kind: turning_point, measure: run_rate}\n",
        "no finding 'b.run_rate.2018' (valid: b.run_rate)",
    ),
]


@pytest.mark.parametrize(("headline", "beats", "said"), WRONG)
def test_a_row_that_can_t_be_is_refused_before_any_data_are_read(
    project: Path, headline: str, beats: str, said: str
):
    first, second = problems(project, headline, beats)
    assert first.startswith(f"5:13: headlines[1]: {said}"), first
    assert second.startswith(f"8:14: expected[1].finding: {said}"), second


@pytest.mark.parametrize("row", ["pace", "pace-middle", "spin.middle", "pace-1", "inland"])
def test_what_the_data_alone_know_is_left_to_them(project: Path, row: str):
    beats = "  - {id: b, kind: before_after, measure: run_rate, by: [bowler_style, ground]}\n"
    text = f"{HEAD}headlines: [b.run_rate.{row}]\nbeats:\n{beats}"
    written(project, text)
    assert load(project / "config", only="asked").topics["asked"].headlines


def test_every_row_there_is_can_be_named(project: Path):
    """The rows that are known beforehand and those that come out of the data agree."""
    beats = "".join(
        f"  - {{id: b{at}, kind: {kind}, measure: run_rate{more}}}\n"
        for at, (kind, more) in enumerate(
            [
                ("before_after", ", by: [bowler_kind, phase]"),
                ("before_after", ", by: home, where: {innings: '1'}"),
                ("gap", ", between: {bowler_kind: [pace, spin]}, by: phase"),
                ("groups", ", between: {region: [inland, coast]}, by: [batter_hand, innings]"),
                ("mix", ", by: [bowler_kind, batting_order]"),
                ("phases", ", bands: [1-6, 20-30]"),
                ("turning_point", ""),
                ("trend", ""),
            ]
        )
    )
    names = list(findings(project, beats, HEAD))
    assert len(names) > 30
    for start in range(0, len(names), 5):
        written(
            project, f"{HEAD}headlines: [{', '.join(names[start : start + 5])}]\nbeats:\n{beats}"
        )
        load(project / "config", only="asked")


def test_two_cuts_with_one_value_are_told_apart_where_they_are_asked_for(tmp_path: Path):
    """The data alone know that a side bats and bowls."""
    matches = [played_in(year, [{**ball}]) for year in range(2017, 2023) for ball in [BALL]]
    for at, found in enumerate(matches):
        if at % 2:
            found["innings"][0]["team"] = "Southfen"
    text = TOPIC.replace("by: bowler_kind", "by: [batting_team, bowling_team]")
    text = text.replace("headlines: [rate]", "headlines: [rate.southfen]")
    (found,) = own_problems(tmp_path, matches, text)
    assert (
        "'Southfen' and 'Southfen' make one id, 'southfen' (batting side or bowling side)" in found
    )
    assert found.startswith("23:9: beats[1].by: ")


BALL = {
    **{"batter": "A Batt", "bowler": "Q Bowl", "non_striker": "B Batt"},
    "runs": {"batter": 1, "extras": 0, "total": 1},
}


def of_finding(finding: str, *parts: str):
    beat, measure, *_ = finding.split(".")
    of = {"finding": finding, "beat": beat, "measure": measure}
    return [fact(f"{finding}.{part}", part, **of) for part in parts]


FACTS = [
    fact("data.matches", "12"),
    *of_finding("wickets.strike", "before", "after", "difference", "change"),
    *of_finding("kinds.economy", "before", "after", "difference", "change"),
    *of_finding("kinds.economy.spin", "before"),
    *of_finding("who.spin-share", "before", "after", "difference"),
    *of_finding("when.economy", "difference", "change", "date"),
    *of_finding("two.economy", "change"),
    *of_finding("two.dots", "change"),
]


@pytest.mark.parametrize(
    ("short", "fact_id"),
    [
        ("wickets", "wickets.strike.change"),
        ("wickets.strike", "wickets.strike.change"),
        ("wickets.before", "wickets.strike.before"),
        ("wickets.strike.before", "wickets.strike.before"),
        ("who", "who.spin-share.difference"),
        ("when", "when.economy.date"),
        ("two.dots", "two.dots.change"),
        ("data.matches", "data.matches"),
        ("kinds.spin.before", "kinds.economy.spin.before"),
    ],
)
def test_an_id_for_short_means_one_thing_wherever_it_is_asked(
    tmp_path: Path, short: str, fact_id: str
):
    """In `see_also`, to `explain` and to `correction`, which takes all facts of a finding."""
    archive_facts(tmp_path / "archive", edition(), *FACTS)
    (tmp_path / "rope").mkdir()
    write_facts(tmp_path / "rope", FACTS)
    found = chief(short, FACTS)
    assert found is not None and found.id == fact_id
    assert find_fact(short, None, tmp_path) == ("rope", found)
    assert fact_id in asked_for(short, None, tmp_path)[1]
    (cited,) = citations([Cited(fact=f"rope/1:{short}")], tmp_path / "archive", "t.yaml")
    assert cited.display == found.display


def test_a_finding_means_all_its_facts_and_no_other_s():
    assert [each.display for each in meant("kinds", FACTS)] == [
        *("before", "after", "difference", "change"),
    ]
    assert meant("kinds.spin", FACTS) == of_finding("kinds.economy.spin", "before")


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("two", "; 'two' has several measures: write one of two.dots, two.economy"),
        (
            "kinds.spin",
            " of its own, since the finding has no interval; it has kinds.economy.spin.",
        ),
        ("wickets.strike.chnge", " (did you mean 'wickets.strike.change'?)"),
    ],
)
def test_what_means_no_one_fact_says_what_to_ask(tmp_path: Path, name: str, said: str):
    archive_facts(tmp_path / "archive", edition(), *FACTS)
    (tmp_path / "rope").mkdir()
    write_facts(tmp_path / "rope", FACTS)
    with pytest.raises(UserError) as caught:
        find_fact(name, None, tmp_path)
    assert f"no such fact{said}" in str(caught.value)
    with pytest.raises(UserError) as caught:
        citations([Cited(fact=f"rope/1:{name}")], tmp_path / "archive", "t.yaml")
    assert f"edition rope/1 has no fact '{name}'{said}" in str(caught.value)


def test_topics_that_share_a_short_id_are_named():
    with pytest.raises(UserError, match="2 topics have it: net, rope; name one with --topic"):
        topic_of("wickets", {"net": FACTS, "rope": FACTS})


def test_such_a_row_is_made_again_from_its_beat_alone(project: Path):
    """`explain` runs one beat; the row is of what the topic asks."""
    found = brief(project, TWO, HEAD, "[kinds.pace]")
    told = chief("kinds.pace", found.facts)
    assert told is not None and told.id == "kinds.run_rate.pace.change"
    config = load(project / "config", only="asked")
    again = made_again(config, "asked", told, found.findings, project / "output" / "data")
    assert again.same_as(told)
