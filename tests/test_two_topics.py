"""Compare of two topics: two questions side by side, nothing moved, nothing tested between them."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from msgspec.structs import replace

from pipeline.compare.beside import Built, beside, same_question
from pipeline.compare.beside_words import NOT_TESTED, lines_of, told
from pipeline.compare.command import compare
from pipeline.contracts.facts import Fact, Summary
from pipeline.contracts.finding import Finding, Turn
from pipeline.contracts.findings import Family, Findings
from pipeline.contracts.json_schemas import schema
from pipeline.errors import UserError
from tests.editions import archive, project_of
from tests.fact_makers import fact
from tests.finding_makers import answer, asks, change, control, drift, gap
from tests.seasons import season, selection, windows

CAUSES = ("because", "moved from", "differ of what", "explains", "due to", "caused", " -> ")


def topic_of(topic: str, findings: list[Finding], facts: list[Fact], **more: Any) -> Built:
    """A topic of these findings and facts; `competition` is what its data are of."""
    chosen = selection([season(2016), season(2017)], windows(["2016"], ["2017"]))
    none = dict.fromkeys(("looked_at", "headlines", "tables", "refused", "changed", "held"), 0)
    made = Findings(
        data=chosen.data,
        fingerprint="2baa345d",
        corrections=[],
        seasons=chosen.seasons,
        timing=chosen.timing,
        headlines=more.get("headlines", []),
        family=Family(**none, cant_tell=0, alpha=0.05, table_rate=0.1, looks=[]),
        findings=findings,
        **{"series": {}, "samples": {}, "lists": {}, "queries": {}},
    )
    summary = Summary(
        **{"topic": topic, "title": f"The {topic}", "question": "Did it?", "answer": []},
        **{"fingerprint": "2baa345d", "matches": "43 matches", "looked_at": 1, "cant_tell": 0},
        **{"first": date(2016, 5, 1), "last": date(2017, 9, 1)},
    )
    seen = {"data": {"competition": more.get("competition", topic)}, "file": f"{topic}.yaml"}
    settings = {"metrics": seen, "charts": {"topic": topic}, "brief": {"words": {"title": topic}}}
    return Built(summary, made, facts, settings)


def told_of(name: str, low: str = "+5.0", high: str = "+15.0", level: float = 0.95) -> list[Fact]:
    """The facts of a change from 4.50 to 4.95."""
    of = {"finding": name}
    return [
        fact(f"{name}.before", "4.50", interval="4.40 to 4.60", level=0.95, **of),
        fact(f"{name}.after", "4.95", interval="4.80 to 5.10", level=0.95, **of),
        fact(f"{name}.difference", "+0.45", interval="+0.20 to +0.70", level=level, **of),
        fact(f"{name}.change", "+10.0%", interval=f"{low} to {high}", level=level, **of),
    ]


def pair() -> tuple[Built, Built]:
    """Two topics: one finding in both, one in each alone, one id that asks different things."""
    by_group = {"what": "groups", "sides": (("coast",), ("inland",))}
    hail = topic_of(
        "hail",
        [
            change("rate.run_rate", drift=drift(), control=control()),
            change("kinds.economy", asks=asks("economy", balls=(("bowler_kind", ("spin",)),))),
            change("rate.run_rate.2"),
        ],
        [*told_of("rate.run_rate"), *told_of("kinds.economy"), *told_of("rate.run_rate.2")],
        headlines=["rate.run_rate"],
    )
    seasons = (("2010", "2011"), ("2012",))
    rain = topic_of(
        "rain",
        [
            change(
                "rate.run_rate", verdict="held", asks=asks("run_rate", sides=seasons), drift=None
            ),
            change("kinds.economy", asks=asks("economy", balls=(("bowler_kind", ("pace",)),))),
            change("rate.run_rate.9", refused="few_matches", asks=asks("run_rate", **by_group)),
        ],
        [*told_of("rate.run_rate", "−1.0", "+21.0", 0.99), *told_of("kinds.economy")],
    )
    return hail, rain


def test_findings_are_matched_by_id_where_they_ask_the_same():
    found = beside(*pair())
    (both,) = found.both
    assert (both.id, both.headline) == ("rate.run_rate", True)
    assert (both.first.verdict, both.first.drift, both.first.control) == (
        *("changed", "beyond the drift", "beyond the control"),
    )
    assert (both.second.verdict, both.second.drift, both.second.control) == ("held", None, None)
    assert [one.id for one in found.only_first] == ["rate.run_rate.2"]
    assert [one.id for one in found.only_second] == ["rate.run_rate.9"]
    assert found.not_alike == ["kinds.economy"]


def test_both_values_stand_with_both_intervals_and_verdicts():
    text = "\n".join(lines_of(beside(*pair())))
    (first, second) = re.findall(r"^    (?:hail|rain)  .*$", text, re.MULTILINE)
    values = "before 4.50, after 4.95 runs an over; +10.0%"
    assert first.startswith(f"    hail  {values}, 95% interval +5.0 to +15.0; changed; beyond")
    assert second.startswith(f"    rain  {values}, 99% interval −1.0 to +21.0; held")


def test_the_words_say_that_these_are_two_questions_and_claim_no_cause():
    text = " ".join(" ".join(lines_of(beside(*pair()))).split())
    assert text.startswith("Two questions, each answered by itself")
    assert text.endswith(NOT_TESTED) and "Intervals that overlap are no test" in NOT_TESTED
    assert "hail: The hail (43 matches, 2016-05-01 to 2017-09-01)" in text
    assert "data.competition: hail hail; rain rain" in text
    assert "these are not side by side: kinds.economy" in text
    assert "only rain answers: rate.run_rate.9: no figure, since there" in text
    assert not [word for word in CAUSES if word in text]


def test_no_number_is_made_of_both():
    """Every number of the lines stands in one topic's own facts, settings or head."""
    hail, rain = pair()
    own = " ".join(f"{each.display} {each.interval}" for each in (*hail.facts, *rain.facts) if each)
    rows = [line for line in lines_of(beside(hail, rain)) if line.startswith("    ")]
    shown = re.findall(r"[+−]?\d+\.\d+%?", " ".join(rows))
    assert len(shown) >= 10 and set(shown) <= set(own.split())


def test_a_topic_s_name_title_and_question_are_no_settings_that_differ():
    found = beside(*pair())
    assert [(one.where, one.first, one.second) for one in found.asked_otherwise] == [
        ("data.competition", "hail", "rain")
    ]
    hail, _ = pair()
    same = beside(hail, hail._replace(settings=hail.settings))
    assert "they ask the same of the same data" in list(lines_of(same))
    assert (same.only_first, same.only_second, same.not_alike) == ([], [], [])


def test_of_many_settings_the_first_are_told_and_the_others_counted():
    hail, rain = pair()
    many = {"metrics": {f"key{at}": at + 1 for at in range(20)}}
    lines = list(
        lines_of(beside(hail._replace(settings={"metrics": {}}), rain._replace(settings=many)))
    )
    assert "  and 8 more settings" in lines


def test_what_nothing_is_common_to_is_said():
    hail, rain = pair()
    none = rain._replace(findings=replace(rain.findings, findings=[]))
    assert "no finding is in both" in list(lines_of(beside(hail, none)))


@pytest.mark.parametrize(
    ("more", "same"),
    [
        ({"sides": (("2001",), ("2002", "2003"))}, True),
        ({"balls": (("phase", ("death",)),)}, False),
        ({"known": ("bowler_kind",)}, False),
        ({"measure": "run_rate"}, False),
        ({"asks": "mix"}, False),
        ({"every": "quarter"}, False),
    ],
)
def test_what_makes_two_findings_one_question(more: dict[str, Any], same: bool):
    assert same_question(asks(), replace(asks(), **more)) is same


def test_groups_are_the_same_question_only_between_the_same_groups():
    one = asks(what="groups", sides=(("coast",), ("inland",)))
    assert same_question(one, replace(one))
    assert not same_question(one, replace(one, sides=(("coast",), ("hills",))))


def test_a_gap_has_its_groups_own_changes_and_a_turn_its_date():
    name = "b.economy"
    facts = [
        fact(f"{name}.before", "+4.7%", finding=name, unit="per cent"),
        fact(f"{name}.after", "−4.8%", finding=name, unit="per cent"),
        fact(f"{name}.change", "−9.0%", finding=name, interval="−11.7 to −6.2", level=0.95),
    ]
    found = beside(topic_of("a", [gap(name)], facts), topic_of("b", [gap(name)], facts))
    assert told(found.both[0].first) == (
        "before +4.7%, after −4.8%; −9.0%, 95% interval −11.7 to −6.2; changed"
    )
    turned = [
        fact(f"{name}.date", "between 2016 and 2017", finding=name, interval="it holds no other"),
        fact(f"{name}.difference", "−1.0 pts", finding=name, interval="−2.0 to −0.1", level=0.95),
    ]
    turn = answer(Turn, name, turn=None)
    found = beside(topic_of("a", [turn], turned), topic_of("b", [turn], turned))
    assert told(found.both[0].second) == (
        "between 2016 and 2017 (it holds no other); −1.0 pts, 95% interval −2.0 to −0.1; changed"
    )


def test_a_finding_of_which_a_side_alone_has_a_value_is_told_with_its_reason():
    name = "b.economy"
    one = change(name, refused="few_matches")
    facts = [fact(f"{name}.before", "4.50", finding=name)]
    found = beside(topic_of("a", [one], facts), topic_of("b", [change(name)], told_of(name)))
    assert told(found.both[0].first).startswith(
        "before 4.50 runs an over; no figure, since there are "
    )
    assert found.both[0].first.numbers == [] and found.both[0].second.numbers


@pytest.fixture(scope="module")
def home(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A project with two topics built; the first is archived too."""
    return project_of(built, tmp_path_factory.mktemp("two"), "sea-air", "long-grass")


@pytest.mark.slow
def test_two_topics_as_they_are_built(home: Path, monkeypatch: pytest.MonkeyPatch, capsys):
    monkeypatch.chdir(home)
    compare(["long-grass", "sea-air", "--json", "beside.json"])
    text = capsys.readouterr().out
    assert "long-grass: Did the long grass rescue the spinner?" in text
    assert "kinds.economy.spin-middle" in text.partition("only long-grass answers:")[2]
    assert " ".join(text.split()).endswith(NOT_TESTED)
    found = json.loads(Path("beside.json").read_text("utf-8"))
    jsonschema.validate(found, json.loads(schema("compare-topics")))
    assert found["both"] == [] and len(found["only_second"]) > 10


@pytest.mark.slow
def test_what_can_t_stand_beside_each_other_is_refused(home: Path, monkeypatch, capsys):
    monkeypatch.chdir(home)
    assert "edition 1" in archive("sea-air")
    with pytest.raises(UserError, match=r"long-grass: the same topic twice; name another one"):
        compare(["long-grass", "long-grass"])
    with pytest.raises(UserError, match=r"no topic 'sea-ar' \(did you mean 'sea-air'\?\)"):
        compare(["long-grass", "sea-ar"])
    with pytest.raises(UserError, match="an edition stands first: compare TOPIC/NUMBER"):
        compare(["sea-air", "sea-air/1"])
    with pytest.raises(UserError, match="no built topic here; run make brief"):
        compare(["long-grass", "who-paid"])
    with pytest.raises(UserError, match=r"of another topic .*: compare sea-air long-grass"):
        compare(["sea-air/1", "long-grass"])
    compare(["sea-air/1", "sea-air"])
    assert "they say the same" in capsys.readouterr().out
