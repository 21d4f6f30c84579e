"""Compare: what moved between two editions, and what differs of what they were made of."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from msgspec import structs
from pypdf import PdfReader

from pipeline.compare.command import compare, printed
from pipeline.contracts.editions import SettingMoved
from pipeline.contracts.facts import Fact
from pipeline.editions.difference import compared, facts_moved, settings_moved
from pipeline.editions.difference_words import NOTHING, causes_said, facts_said, intervals_said
from pipeline.editions.sides import ChartSums, Side, lines_of
from pipeline.errors import UserError
from pipeline.markdown import literal
from pipeline.verify.check import check
from tests.editions import TOPIC, archive, change, project_of, remake
from tests.fact_makers import fact, fix


def side(**more) -> Side:
    plain = Side("one", "t", [], {}, {}, {"brief": {}}, [], "aaaa", "code")
    return plain._replace(**more)


def test_facts_new_gone_and_moved_and_last_digits_that_are_not():
    before = [
        fact("a", "5.1"),
        fact("b", "5.1"),
        fact("c", "5.1", value=5.1),
        fact("d", "5.1", value=5.1),
    ]
    after = [
        fact("a", "5.2", verdict="changed"),
        fact("c", "5.1", value=5.1 * (1 + 1e-13)),
        fact("d", "5.1", value=5.104),
        fact("e", "1"),
    ]
    moved = {found.id: found.what for found in facts_moved(before, after)}
    assert moved == {
        "a": ["display", "spoken", "verdict"],
        "d": ["value"],
        "e": ["new"],
        "b": ["gone"],
    }
    rows = list(facts_said(list(facts_moved(before, after))))
    assert rows == [("a", "5.1, held", "5.2, changed"), ("e", "–", "1"), ("b", "5.1", "–")]


def interval(ends: str, level: float | None = None, **more: Any) -> Fact:
    return fact("a.change", "+7.4%", **{"value": 0.074, "interval": ends, "level": level, **more})


def moves(old: Fact, new: Fact) -> tuple[list[str], list[tuple[str, str, str]], list[str]]:
    """(what moved, the rows, the sentences on intervals) of one number."""
    found = list(facts_moved([old], [new]))
    return (
        [what for one in found for what in one.what],
        list(facts_said(found)),
        intervals_said(found),
    )


def test_a_wider_interval_is_no_change_of_the_number():
    """And an edition that notes no confidence had one of 95 %."""
    old, wider = interval("+5.0 to +10.0"), interval("+3.0 to +12.0", 0.99)
    allows = "interval, which allows for how many numbers are tested together."
    assert moves(old, wider) == (
        ["interval"],
        [],
        [f"1 number is as it was, with a wider {allows}"],
    )
    (narrower,) = moves(wider, old)[2]
    assert narrower == "1 number is as it was, with an interval at a lower confidence."
    assert moves(old, interval("+5.0 to +10.0", 0.95)) == ([], [], [])
    both = [structs.replace(wider, id=f"{at}.change") for at in "ab"]
    then = [structs.replace(old, id=f"{at}.change") for at in "ab"]
    (told,) = intervals_said(facts_moved(then, both))
    assert told == f"2 numbers are as they were, each with a wider {allows}"


def test_what_is_said_to_other_digits_for_its_interval_is_the_same_number():
    old = interval("+5.0 to +10.0", 0.95, spoken="about seven point four per cent up")
    wider = interval("+3.0 to +12.0", 0.99, spoken="about seven per cent up")
    what, rows, said = moves(old, wider)
    assert what == ["spoken", "interval"] and rows == []
    assert said[0].endswith(
        "With it is said: a.change “about seven per cent up”, before “about seven point four per "
        "cent up”."
    )
    many = [structs.replace(wider, id=f"{at}.change") for at in range(20)]
    then = [structs.replace(old, id=f"{at}.change") for at in range(20)]
    assert intervals_said(facts_moved(then, many))[0].endswith(" and 8 more.")


def test_a_verdict_or_a_number_that_moved_with_its_interval_has_a_row():
    old = interval("+5.0 to +10.0", 0.95, verdict="changed")
    lost = interval("−1.0 to +16.0", 0.999, verdict="can't tell")
    assert moves(old, lost)[1:] == ([("a.change", "+7.4%, changed", "+7.4%, can't tell")], [])
    other = interval("+5.1 to +10.1", 0.95, value=0.0741, verdict="changed")
    row = ("a.change", "+7.4%, 95% interval +5.0 to +10.0", "+7.4%, 95% interval +5.1 to +10.1")
    assert moves(old, other) == (["value", "interval"], [row], [])


def test_an_interval_that_is_new_gone_or_made_otherwise_is_told_as_that():
    none, old = fact("a.change", "+7.4%", value=0.074), interval("+5.0 to +10.0", 0.95)
    same = "1 number is as it was, "
    assert moves(none, old)[2] == [f"{same}with an interval that it had not."]
    assert moves(old, none)[2] == [f"{same}without the interval that it had."]
    again = interval("+4.9 to +10.2", 0.95)
    assert moves(old, again)[2] == [f"{same}with another interval at the same confidence."]


def test_what_moved_is_printed_apart_from_what_has_another_interval():
    old = side(facts=[interval("+5.0 to +10.0", 0.95), fact("b", "5.1"), fact("c", "1", value=1.0)])
    new = side(
        facts=[interval("+3.0 to +12.0", 0.99), fact("b", "5.2"), fact("c", "1", value=1.001)]
    )
    found = compared(old, new)
    lines = printed(found)
    assert not found.same and [line.split()[0] for line in lines[3:6]] == ["b", "1", "1"]
    assert lines[4] == "1 more moved in digits that are not shown"
    assert lines[5].startswith("1 number is as it was, with a wider interval")


def test_charts_move_by_their_numbers_or_their_drawing():
    charts = {name: ChartSums("1", "1") for name in ("a", "b", "c", "d")}
    other = {"a": ChartSums("2", "1"), "b": ChartSums("1", "2"), "c": charts["c"]}
    found = compared(side(charts=charts), side(charts={**other, "e": charts["a"]}))
    assert {moved.chart: moved.what for moved in found.charts} == {
        **{"a": ["numbers"], "b": ["drawing"], "d": ["gone"], "e": ["new"]},
    }


def test_a_setting_that_became_another_kind_of_thing_is_told_whole():
    (moved,) = settings_moved({"brief": {"event": None}}, {"brief": {"event": {"date": "2017"}}})
    assert (moved.where, moved.was, moved.now) == ("event", None, {"date": "2017"})


def test_causes_are_what_is_on_record_and_no_more():
    same = compared(side(), side(name="two"))
    assert same.same and causes_said(same.causes) == [NOTHING]
    old = side(settings={"brief": {"measures": {"economy": {"margin": 5}}, "file": "x"}})
    new = side(
        settings={"brief": {"measures": {"economy": {"margin": 4}}, "file": "y"}},
        corrections=[fix()],
        fingerprint="bbbb",
        code="other",
    )
    assert causes_said(compared(old, new).causes) == [
        "The topic’s data differ: aaaa then bbbb.",
        "New correction: match m1, innings 1: runs off the bat was 1, is 4 (A four, scored as a "
        "single; Scorebook).",
        "Setting measures.economy.margin: was 5, is 4.",
        "The program’s code or its libraries differ.",
    ]
    assert "Withdrawn correction: match m1" in causes_said(compared(new, old).causes)[1]
    many = side(corrections=[fix(old=str(number)) for number in range(20)])
    assert causes_said(compared(side(), many).causes)[-1] == "And 8 more new corrections."


def test_a_setting_that_several_stages_see_is_named_once():
    old = {"significance": {"beats": [{"id": "a"}]}, "brief": {"beats": [{"id": "a"}]}}
    new = {"significance": {"beats": [{"id": "b"}]}, "brief": {"beats": [{"id": "b"}]}}
    assert list(settings_moved(old, new)) == [SettingMoved(where="beats.0.id", was="a", now="b")]


@pytest.mark.parametrize(("nothing", "says"), [(None, 0), (False, 0), ([], 0), ("", 0), (3, 1)])
def test_a_setting_that_came_later_and_says_nothing_has_not_moved(nothing: Any, says: int):
    old, new = {"brief": {"a": 1}}, {"brief": {"a": 1, "b": nothing}}
    assert [len(list(settings_moved(*sides))) for sides in ((old, new), (new, old))] == [says, says]


def test_lines_are_read_by_beat_and_end_before_the_background():
    text = "# T\n\nQ?\n\nIt held.\n\n## 1. A beat (0:12)\n\n- One.\n- Two.\n\nCareful: x\n"
    text += "\n## Background\n\n- Said.\n"
    assert lines_of(text) == {"The answer": ["It held."], "A beat": ["One.", "Two."]}


def test_lines_are_read_as_they_were_before_they_were_made_literal():
    said, title = "Spin [left] *and* <right> ~ 5 _a_ a_b", "The *middle* [overs]"
    text = f"# T\n\nQ?\n\n{literal(said)}\n\n## 1. {literal(title)} (0:12)\n\n- {literal(said)}\n"
    assert text.count("\\") > 20
    assert lines_of(text) == {"The answer": [said], title: [said]}


def test_lines_of_beats_of_one_title_are_all_kept():
    text = "# T\n\nQ?\n\n## 1. Economy (0:12)\n\n- One.\n\n## 2. Economy (0:12)\n\n- Two.\n"
    assert lines_of(text)["Economy"] == ["One.", "Two."]


@pytest.mark.slow
def test_what_changed_is_told_on_the_terminal_as_json_and_in_the_brief(
    built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture
):
    monkeypatch.chdir(project_of(built, tmp_path))
    assert "edition 1" in archive()
    assert "nothing has changed since edition 1" in archive()
    remake()
    working = Path(f"output/{TOPIC}")
    assert not any("What changed" in page for page in pages(working)), "nothing did"
    compare([f"{TOPIC}/1"])
    assert "they say the same, and draw the same" in capsys.readouterr().out

    change("measures.yaml", "margin: 5 %", "margin: 15 %")
    with pytest.raises(UserError, match=r"findings.json: not what the .* make now; run make brief"):
        compare([f"{TOPIC}/1"])
    remake()
    compare([f"{TOPIC}/1", TOPIC, "--json", "compared.json"])
    told = capsys.readouterr().out
    found = json.loads(Path("compared.json").read_text("utf-8"))
    verdicts = [fact for fact in found["facts"] if "verdict" in fact["what"]]
    assert verdicts and {fact["old"]["verdict"] for fact in verdicts} == {"can't tell"}
    assert all(fact["id"] in told for fact in verdicts)
    assert "was 5" in told and "is 15" in told and not found["same"]
    paper = " ".join(pages(working))
    assert "What changed since edition 1" in paper and verdicts[0]["id"] in paper

    assert "edition 2" in archive()
    assert check(Path(f"output/archive/{TOPIC}/2")).wrong == []
    assert "What changed since edition 1" in " ".join(pages(Path(f"output/archive/{TOPIC}/2/data")))
    compare([f"{TOPIC}/1", f"output/archive/{TOPIC}/2"])
    assert "edition 2 of sea-air" in capsys.readouterr().out
    with pytest.raises(UserError, match=r"sea-air/9: no edition here.*there: sea-air/1, sea-air/2"):
        compare([f"{TOPIC}/9"])
    with pytest.raises(UserError, match="nothing is archived of that topic"):
        compare(["nobody/1"])
    other = Path("output/archive/other/1/data")
    shutil.copytree(f"output/archive/{TOPIC}/1/data", other)
    about = other / "edition.json"
    about.chmod(0o644)
    about.write_text(about.read_text("utf-8").replace(f'"{TOPIC}"', '"other"'), "utf-8")
    with pytest.raises(UserError, match=r"of another topic \(other\) than sea-air/1"):
        compare([f"{TOPIC}/1", "other/1"])
    about.write_text("{}", "utf-8")
    with pytest.raises(UserError, match=r"edition.json: not what it should hold: .*`topic`"):
        compare([f"{TOPIC}/1", "other/1"])


def pages(folder: Path) -> list[str]:
    return [page.extract_text() for page in PdfReader(folder / "brief.pdf").pages]
