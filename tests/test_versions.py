"""What a brief says of a question that was asked before holds; the doctor names stray ledgers."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.build.looks import new_looks
from pipeline.contracts.ledger import Version
from pipeline.doctor.checks import ledgers
from pipeline.ledger.book import add_lines, ledger_of
from pipeline.wording.versions import earlier_lines, versions_said
from tests.brief_makers import family
from tests.league import brief, league
from tests.ledger_makers import look
from tests.tallying import HEAD
from tests.test_top_sheet import BEAT, matches

ORDINALS = ("", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
COUNTS = ("", "one", "two", "three", "four", "five", "six", "seven")
NAMES = {"b.economy": "economy", "b.fours": "fours", "c.dots": "dot balls"}
SAID = re.compile(
    r"(?:(?P<names>[a-z ,]+): )?(?P<each>each )?the (?P<nth>\w+) version of (?:this|its) question"
    r"(?:; (?P<count>\w+) other pairs? of windows (?:was|were) tried)?"
)


def heard(lines: list[str]) -> dict[str, tuple[int, int]]:
    """(which version, how many other windows) of each headline, as the lines have it."""
    found = {}
    for line in lines:
        told = SAID.fullmatch(line)
        assert told, line
        names = re.split(", | and ", told["names"] or "economy")
        assert bool(told["each"]) == (len(names) > 1)
        count = COUNTS.index(told["count"]) if told["count"] else 0
        found |= dict.fromkeys(names, (ORDINALS.index(told["nth"]), count))
    return found


@given(
    st.dictionaries(
        st.sampled_from(sorted(NAMES)),
        st.tuples(st.integers(2, 8), st.integers(0, 7)).filter(lambda one: one[1] < one[0]),
    )
)
def test_versions_are_told_of_the_headlines_that_have_them(drawn):
    versions = {name: Version(number=n, windows=w) for name, (n, w) in drawn.items()}
    assert heard(versions_said(versions, NAMES)) == {NAMES[one]: drawn[one] for one in drawn}


def test_one_headline_needs_no_name():
    one = {"b.economy": Version(number=4, windows=2)}
    assert versions_said(one, {"b.economy": "economy"}) == [
        "the fourth version of this question; two other pairs of windows were tried"
    ]
    assert versions_said({}, NAMES) == []


@pytest.mark.parametrize(("earlier", "said"), [(1, "1 earlier look "), (12, "12 earlier looks ")])
def test_the_method_says_how_many_count(earlier: int, said: str):
    (line,) = earlier_lines(family(earlier=earlier), 15, {})
    assert said in line
    (line,) = earlier_lines(family(earlier=0), 3, {})
    assert "(3 lines of its ledger); none of them is counted" in line
    assert earlier_lines(family(), 0, {}) == []


def test_a_brief_says_which_version_it_is_and_its_own_lines_change_nothing(tmp_path: Path):
    project = league(tmp_path / "league", matches())
    ledger = ledger_of(project / "config", "asked")
    first = brief(project, BEAT, HEAD, "[a.run_rate.powerplay, a.run_rate.middle]")
    assert "version" not in first.content.data_line
    add_lines(ledger, list(new_looks(first.findings, [], date(2024, 5, 1))))
    again = brief(project, BEAT, HEAD, "[a.run_rate.powerplay, a.run_rate.middle]")
    assert again.findings == first.findings and again.content.data_line == first.content.data_line

    known = BEAT.replace("}", ", where: {innings: 1}}")
    other = brief(project, known, HEAD, "[a.run_rate.powerplay]")
    assert other.findings.family.earlier == 2 and "version" not in other.content.data_line
    sizes = {one.id: one.family_size for one in other.findings.findings}
    assert sizes["a.run_rate.powerplay"] == 3
    add_lines(ledger, [look(asks=_wider(first.findings))])
    last = brief(project, BEAT, HEAD, "[a.run_rate.powerplay]")
    version = last.findings.versions["a.run_rate.powerplay"]
    assert (version.number, version.windows) == (2, 1)
    assert "the second version of this question; one other pair" in last.content.data_line
    assert last.findings.family.earlier == 2  # the middle overs, and the other windows
    assert [one.id for one in last.facts if one.id == "family.earlier"] and any(
        "2 earlier looks" in line for line in last.content.method
    )


def _wider(findings):
    """The first headline's question in other windows."""
    asked = next(one.asks for one in findings.findings if one.id == findings.headlines[0])
    return msgspec.structs.replace(asked, sides=(("2018", "2019"), ("2020",)))


def test_the_doctor_names_ledgers_of_no_topic_and_unreadable_ones(tmp_path: Path):
    assert list(ledgers(tmp_path, tmp_path)) == []
    (tmp_path / "topics").mkdir()
    (tmp_path / "topics" / "hail.yaml").write_text("", "utf-8")
    add_lines(ledger_of(tmp_path, "hail"), [look(0)])
    (well,) = ledgers(tmp_path, tmp_path)
    assert well.well
    gone, odd = ledger_of(tmp_path, "snow"), ledger_of(tmp_path, "hail")
    add_lines(gone, [look(0)])
    (over,) = ledgers(tmp_path, tmp_path)
    assert not over.well and "of topics that are no more: snow.csv" in over.what
    odd.write_text(odd.read_text("utf-8") + "a note\n", "utf-8")
    wrong, _ = ledgers(tmp_path, tmp_path)
    assert not wrong.well and f"{odd}:3:1: not as the project wrote it" in wrong.what
    for path in (gone, odd):
        path.unlink()
    gone.parent.rmdir()
    gone.parent.write_text("", "utf-8")
    (file,) = ledgers(tmp_path, tmp_path)
    assert not file.well and "is no folder" in file.what
