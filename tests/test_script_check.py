"""The check of a script: its marks, what is said of them, its table and its page."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest
from msgspec import structs

from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.files import as_json, read_json
from pipeline.contracts.script_check import Result, ScriptChecks
from pipeline.errors import UserError
from pipeline.script.check_marks import corrections, for_a_person, marks_of, to_mend
from pipeline.script.check_page import check_page, pieces_of
from pipeline.script.check_table import table
from pipeline.script.file_checked import FileChecked, file_checked
from pipeline.script.stage import all_checked
from pipeline.wording.script_checked import clock, fails, state_of, state_said, states_said
from tests.browsing import DESKTOP, Seen, browser, sized
from tests.conftest import ROOT
from tests.judging import StandIn, claim, number
from tests.test_fact_forms import MOVE, VALUE, fact

VIEW = views.brief(load(ROOT / "config", only="sea-air"), "sea-air")
FACTS = [fact(MOVE), fact(VALUE)]
CHANGE = "b.economy.change"
RIGHT = number("about seven per cent", "supported", fact=CHANGE, verdict="changed")
WRONG = number(
    "nine per cent",
    "wrong direction",
    fact=CHANGE,
    verdict="changed",
    right="about seven per cent down",
    why="It fell.",
    risk=1,
)
OLD = number("five per cent", "stale", fact=CHANGE, right="about seven", edition="t/1", risk=2)
NOBODY = number("two", "not a statistic")
OPEN = number("sixty", "for a person", why="Two facts fit.", risk=3)
NONE = number("ten <b>", "unsupported", why="No fact is of it.", risk=2)
CAUSE = claim("because of the grass & co", "cause", instead="after the grass came")
JUDGE = StandIn(RIGHT, WRONG, OLD, NOBODY, OPEN, NONE, CAUSE)
TEXT = (
    "# T\n\n## First\n\nIt fell by {{ b.economy.change | size }}. It rose nine per cent because of"
    " the grass & co.\n\n## Then\n\nSixty, no, sixty of two; ten <b> of five per cent.\n"
)
VTT = "WEBVTT\n\n00:01.000 --> 00:02.000\nIt rose\n\n1:01:02.000 --> 1:01:03.000\nnine per cent.\n"


def checked(path: Path, text: str = TEXT, judge: StandIn = JUDGE) -> FileChecked:
    path.write_text(text, "utf-8")
    return file_checked(path, "t", FACTS, judge)


def test_marks_are_in_order_with_their_places_and_who_has_to_look(tmp_path: Path):
    marks = marks_of(checked(tmp_path / "t.md"))
    assert [(mark.what, mark.place) for mark in marks] == [
        ("supported", "line 5"),
        ("wrong direction", "line 5"),
        ("cause", "line 5"),
        ("for a person", "line 9"),
        ("unsupported", "line 9"),
        ("stale", "line 9"),
    ]
    assert [mark.name for mark in marks] == ["1", "2", "3", "4", "5", "6"]
    assert [mark.what for mark in to_mend(marks)] == ["wrong direction", "cause", "stale"]
    assert [mark.what for mark in for_a_person(marks)] == ["unsupported", "for a person"]
    assert not marks[0].asks and all(mark.asks for mark in marks[1:])


def test_the_state_counts_what_is_judged_and_fails_on_what_is_wrong(tmp_path: Path):
    check = checked(tmp_path / "t.md").check
    state = state_of(check)
    assert (state.numbers, state.to_mend, state.claims, state.to_check) == (5, 2, 1, 2)
    assert state_said(state) == (
        "Script checked: 5 numbers, 3 to mend, 1 of them a claim that goes too far; 2 for a person"
        " to check"
    )
    assert len(to_mend(marks_of(checked(tmp_path / "t.md")))) == 3, "as many as are listed"
    said = state_said(structs.replace(state, to_mend=0, claims=15, to_check=0))
    assert said.endswith("5 numbers, 15 to mend, 15 of them claims that go too far")
    assert fails(check)
    well = checked(tmp_path / "u.md", judge=StandIn(RIGHT, OLD, OPEN)).check
    assert not fails(well), "a stale number is to be mended, and no failure"
    none = checked(tmp_path / "v.md", judge=StandIn(RIGHT)).check
    assert state_said(state_of(none)) == "Script checked: 1 number, none to mend"


def test_of_several_scripts_each_is_named(tmp_path: Path):
    script = state_of(checked(tmp_path / "t.script.md").check)
    other = state_of(checked(tmp_path / "t.script.txt", "Nothing.").check)
    heard = state_of(checked(tmp_path / "t.vtt", VTT).check)
    assert states_said([script, heard])[0].startswith("Script checked: ")
    assert [line.partition(" checked")[0] for line in states_said([script, other, heard])] == [
        "Script t.script.md",
        "Script t.script.txt",
        "Captions",
    ]


def test_captions_have_times_and_lines_to_publish(tmp_path: Path):
    found = checked(tmp_path / "t.vtt", VTT)
    (mark,) = marks_of(found)
    assert mark.place == "1:01:02" and found.check.sentences[0].start == 1000
    line = "1:01:02 Correction: we say nine per cent; it is about seven per cent down."
    assert corrections([mark]) == [line]
    assert corrections(marks_of(checked(tmp_path / "t.md"))) == []
    assert list(table(found))[-2:] == ["Corrections to publish", f"  {line}"]
    assert clock(61_999) == "01:01" and clock(3_600_000) == "1:00:00"


def test_a_claim_has_a_line_to_publish_and_a_turned_number_says_what_it_is_said_of(tmp_path: Path):
    turned = structs.replace(WRONG, corrected="nine per cent up; it is about seven per cent down")
    bold = claim("It rose", "no caution", instead="Whether it rose, these matches can’t settle.")
    hard = claim("rose", "don't say", why="Don’t say: grass")
    marks = marks_of(checked(tmp_path / "t.vtt", VTT, StandIn(turned, bold)))
    assert corrections(marks) == [
        "00:01 Correction: we say “It rose”. Whether it rose, these matches can’t settle.",
        "1:01:02 Correction: we say nine per cent up; it is about seven per cent down.",
    ]
    (line,) = corrections(marks_of(checked(tmp_path / "t.vtt", VTT, StandIn(hard))))
    assert line.endswith("“It rose”. That is more than the data show.")
    assert corrections(marks_of(checked(tmp_path / "t.md", judge=StandIn(turned, CAUSE)))) == []


def test_the_table_has_each_place_once_with_what_to_say(tmp_path: Path):
    said = "\n".join(table(checked(tmp_path / "t.md")))
    assert "wrong direction: “nine per cent”" in said and "say “about seven per cent down”" in said
    assert "stale: “five per cent”" in said and "of t/1; say “about seven”" in said
    assert said.index("unsupported:") < said.index("for a person:"), "by risk"
    assert "supported: “about" not in said and "“two”" not in said
    assert max(map(len, said.splitlines()[2:])) <= 100


def test_a_number_out_of_a_slot_is_its_fact_s_even_where_nothing_names_it(tmp_path: Path):
    lost = number("about seven per cent", "for a person", risk=2)
    found = checked(tmp_path / "t.md", "It was {{ b.economy.change | size }}.\n", StandIn(lost))
    ((one,),) = [sentence.numbers for sentence in found.check.sentences]
    assert (one.result, one.fact, one.risk) == ("supported", CHANGE, 0)
    wrong = number("about seven per cent", "wrong direction", risk=1, fact=CHANGE)
    found = checked(tmp_path / "t.md", "It rose {{ b.economy.change | size }}.\n", StandIn(wrong))
    assert found.check.sentences[0].numbers[0].result == "wrong direction", "its own way is said"
    free = checked(tmp_path / "t.txt", "It was about seven per cent.\n", StandIn(lost))
    assert free.check.sentences[0].numbers[0].result == "for a person"


@pytest.mark.parametrize(
    "result", ["contradicted", "wrong unit", "wrong direction", "rounded too far", "stale"]
)
def test_a_number_out_of_a_slot_is_never_held_against_another_fact(tmp_path: Path, result: Result):
    lost = number("about seven per cent", result, risk=1, fact="b.economy.other", right="nine")
    found = checked(tmp_path / "t.md", "It was {{ b.economy.change | size }}.\n", StandIn(lost))
    (one,) = found.check.sentences[0].numbers
    assert (one.result, one.fact, one.right, one.risk) == ("supported", CHANGE, None, 0)
    typed = checked(tmp_path / "t.txt", "It was about seven per cent.\n", StandIn(lost))
    assert typed.check.sentences[0].numbers[0].result == result


@pytest.mark.parametrize(
    ("typed", "result"),
    [
        ("percentage points", "wrong unit"),
        ("runs a wicket", "wrong unit"),
        ("balls", "wrong unit"),
        ("per cent", "supported"),
        ("this year", "supported"),
    ],
)
def test_a_unit_that_is_typed_after_a_slot_is_its_fact_s(tmp_path: Path, typed: str, result: str):
    told = number("about seven per cent", "supported", fact=CHANGE)
    text = f"It fell by {{{{ b.economy.change | size }}}} {typed}.\n"
    (one,) = checked(tmp_path / "t.md", text, StandIn(told)).check.sentences[0].numbers
    assert (one.result, one.fact, one.risk) == (result, CHANGE, int(result == "wrong unit"))
    assert (typed in one.why) == (result == "wrong unit")


def test_the_mistakes_of_all_files_are_told_together(tmp_path: Path):
    (tmp_path / "a.md").write_text("{{ b.economy.chang }} {{ b.economy.before | sizes }}", "utf-8")
    (tmp_path / "b.vtt").write_text("", "utf-8")
    with pytest.raises(UserError) as caught:
        all_checked([tmp_path / "a.md", tmp_path / "b.vtt"], "t", FACTS, JUDGE)
    said = [str(problem) for problem in caught.value.problems]
    assert len(said) == 3 and "no fact 'b.economy.chang'" in said[0] and "b.vtt" in said[2]


def test_what_is_written_is_read_again(tmp_path: Path):
    made = ScriptChecks(topic="t", checks=[checked(tmp_path / "t.md").check])
    path = tmp_path / "script-check.json"
    path.write_text(as_json(made), "utf-8")
    assert read_json(path, ScriptChecks) == made


def test_pieces_hold_the_whole_text_and_cut_at_every_mark(tmp_path: Path):
    found = checked(tmp_path / "t.md")
    marks = [mark for mark in marks_of(found) if mark.sentence == 1]
    text = found.passages[1].text
    pieces = list(pieces_of(text, marks))
    assert "".join(piece.text for piece in pieces) == text
    assert [piece.text for piece in pieces if piece.number] == ["nine per cent"]
    assert [piece.text for piece in pieces if piece.claims] == ["because of the grass & co"]
    inside = [marks[0]._replace(is_claim=True, begins=0, ends=len(text)), marks[0]]
    both = [piece for piece in pieces_of(text, inside) if piece.number]
    assert [piece.text for piece in both] == ["nine per cent"] and both[0].claims


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("page")
    files = [checked(folder / "t.md"), checked(folder / "t.vtt", VTT)]
    made = folder / "script-check.html"
    made.write_text(check_page(VIEW, files, FACTS), "utf-8")
    return made


def test_the_page_has_every_sentence_escaped_and_leads_to_the_facts(page: Path):
    text = page.read_text("utf-8")
    body = text[text.index("<main>") : text.index("</main>")]
    said = html.unescape(re.sub(r"<[^>]+>", "", body))
    assert "It rose nine per cent because of the grass & co." in said
    assert "ten <b> of five per cent." in said and "<b> of" not in body
    assert 'href="brief.html#fact-b.economy.change"' in body
    assert re.findall(r"<h3 class=\"part\">(.*?)</h3>", body) == ["First", "Then"]
    assert body.count("Corrections to publish") == 1
    ids = re.findall(r'\bid="([^"]+)"', body)
    assert len(ids) == len(set(ids))
    targets = set(re.findall(r'href="#([^"]+)"', body))
    assert targets and targets <= set(ids)


def test_a_fact_that_the_brief_does_not_list_is_no_link(tmp_path: Path):
    point = fact(MOVE, beat="b", finding=None)
    text = check_page(VIEW, [checked(tmp_path / "t.md")], [point])
    assert "brief.html#fact-" not in text and "wrong direction" in text


def test_an_empty_script_says_so(tmp_path: Path):
    text = check_page(VIEW, [checked(tmp_path / "t.txt", "")], FACTS)
    assert "It says no number and makes no claim." in text


@pytest.mark.slow
def test_keys_go_through_the_findings_and_nothing_is_wider_than_a_phone(page: Path):
    with browser() as made:
        for size in (DESKTOP, (400, 800), (320, 640)):
            shown = sized(made, size).new_page()
            seen = Seen(shown)
            shown.goto(page.as_uri())
            assert shown.evaluate("document.documentElement.scrollWidth") <= size[0]
            visited = []
            for key in ("j", "j", "n", "k"):
                shown.keyboard.press(key)
                visited.append(shown.evaluate("document.activeElement.id"))
            assert visited == ["m1-2", "m1-3", "m1-4", "m1-3"]
            lit = shown.evaluate("[...document.querySelectorAll('.lit')].map(e => e.textContent)")
            assert lit == ["because of the grass & co"]
            outline = "getComputedStyle(document.activeElement).outlineStyle"
            assert shown.evaluate(outline) == "solid"
            for _ in range(20):
                shown.keyboard.press("j")
            assert shown.evaluate("document.activeElement.id") == "m2-1"
            assert seen.complaints == [] and seen.asked == [page.as_uri()]
