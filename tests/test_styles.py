"""Free-text styles and hands: read as they are met, and what is not read is named."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.clean.quality_page import table
from pipeline.clean.styles import UNKNOWN, read_hand, read_style
from pipeline.contracts.files import read_json
from pipeline.contracts.quality import Quality
from tests.builders import FIXES, PLAYERS, cleaned, delivery, match, quality_of, rows
from tests.styles_in_the_wild import HANDS, HANDS_UNREAD, NO_STYLE, NOTHING, ONE, SEVERAL, UNREAD

ONE_EACH = [
    (text.strip(), arm, what)
    for arm, what, texts in ONE
    for line in texts.splitlines()
    for text in line.split(" | ")
]


def test_there_are_as_many_spellings_as_the_wild_has():
    spellings = [text for text, *_ in ONE_EACH] + [text for text, *_ in SEVERAL]
    assert len(spellings) == len(set(spellings)) >= 240


@pytest.mark.parametrize(("text", "arm", "what"), ONE_EACH, ids=[each[0] for each in ONE_EACH])
def test_a_style_in_its_spellings(text: str, arm: str, what: tuple[str, str]):
    assert read_style(text) == ((arm, *what), (), ())


@pytest.mark.parametrize(("text", "first", "others"), SEVERAL, ids=[each[0] for each in SEVERAL])
def test_the_first_of_several_styles_counts_and_the_others_are_kept(text, first, others):
    assert read_style(text) == (first, tuple(others), ())


@pytest.mark.parametrize("text", NOTHING.split("|"))
def test_a_cell_that_tells_nothing_is_not_unread(text: str):
    assert read_style(text) == (UNKNOWN, (), ())


@pytest.mark.parametrize(("text", "arm", "part"), UNREAD, ids=[each[0] for each in UNREAD])
def test_what_cannot_be_read_is_told(text: str, arm: str, part: str):
    told = read_style(text)
    assert (told.first.arm, told.unread) == (arm, (part,))


@pytest.mark.parametrize("text", NO_STYLE)
def test_a_word_that_may_decide_is_not_passed_over(text: str):
    told = read_style(text)
    assert (told.first.kind, told.first.style) == ("unknown", "unknown") and told.unread


def test_a_batting_hand_in_the_cell_of_the_style_is_passed_over():
    told = read_style("Right-hand bat, left-arm orthodox")
    assert (told.first, told.unread) == (("left", "spin", "finger spin"), ())


@pytest.mark.parametrize(
    ("text", "hand"),
    [(text, hand) for hand, texts in HANDS.items() for text in texts.split("|")],
)
def test_hands_in_their_spellings(text: str, hand: str):
    assert read_hand(text) == hand


@pytest.mark.parametrize("text", HANDS_UNREAD.split("|"))
def test_hands_that_cannot_be_read(text: str):
    assert read_hand(text) is None


SHEET = """id,name,batting_hand,bowling_style,tags
id-a,A Batt,lefft,none,
id-b,B Batt,LHB,juggler,
id-q,Q Bowl,,"RM, OB",
id-x,X,,left-arm ortodocs,
id-y,Y,right,"Offbreak, juggler",
"""


def test_cells_that_cannot_be_read_are_named_with_their_lines_and_stay_unknown(tmp_path: Path):
    data = cleaned(tmp_path, {"players": SHEET}, only={"m1.json": match([delivery(1)])})
    odd = quality_of(data)["odd"]
    styles = odd["styles_that_cannot_be_read"]
    assert styles["count"] == 3
    assert styles["examples"] == [
        "players.csv, line 3: bowling_style 'juggler'; write such as 'right-arm fast-medium', "
        "'right-arm off-break'",
        "players.csv, line 5: bowling_style 'left-arm ortodocs' (did you mean 'left-arm orthodox'"
        "?)",
        "players.csv, line 6: bowling_style 'Offbreak, juggler': read as finger spin, but not "
        "'juggler'; write such as 'right-arm fast-medium', 'right-arm off-break'",
    ]
    hands = odd["hands_that_cannot_be_read"]
    assert (hands["count"], len(hands["examples"])) == (1, 1)
    assert "players.csv, line 2: batting_hand 'lefft' (did you mean 'left'?)" in hands["examples"]
    (row,) = rows(data, "deliveries")
    assert (row["batter_hand"], row["bowler_kind"], row["bowler_style"]) == (
        *("unknown", "pace"),
        "medium",
    )
    report = read_json(data / "quality.json", Quality)
    assert any("warning: players.csv, line 3" in line for line in table(report))
    page = (data / "quality.html").read_text("utf-8")
    assert "Bowling styles that can’t be read: 3" in page and "line 5" in page


def test_the_other_styles_of_a_bowler_are_kept_and_counted(tmp_path: Path):
    data = cleaned(tmp_path, {"players": SHEET}, only={"m1.json": match([delivery(1)])})
    kept = {row["id"]: row["second_style"] for row in rows(data, "players")}
    assert kept == {"id-a": "", "id-b": "", "id-q": "finger spin"}
    assert quality_of(data)["odd"]["bowlers_of_several_styles"] == {
        "count": 1,
        "examples": ["Q Bowl (id-q): RM, OB (counted as medium, also finger spin)"],
    }


def test_the_same_text_on_many_lines_is_told_once_and_counted_whole(tmp_path: Path):
    many = PLAYERS + "".join(f"id-{n},N {n},,LS,\n" for n in range(30))
    data = cleaned(tmp_path, {"players": many}, only={"m1.json": match([delivery(1)])})
    told = quality_of(data)["odd"]["styles_that_cannot_be_read"]
    assert told["count"] == 30 and len(told["examples"]) == 1
    assert "line 4" in told["examples"][0] and "(and so on 29 more lines)" in told["examples"][0]


def test_a_cell_that_a_correction_fills_is_told_with_the_corrections_line(tmp_path: Path):
    fix = ",,,,id-q,,bowling_style,Legbreak,jugler,why,book,me,2026-11-25\n"
    sheets = {"corrections": FIXES + fix}
    data = cleaned(tmp_path, sheets, only={"m1.json": match([delivery(1)])})
    (told,) = quality_of(data)["odd"]["styles_that_cannot_be_read"]["examples"]
    assert told.startswith("corrections.csv, line 2: bowling_style 'jugler'")


def test_a_sheet_that_is_read_whole_gives_no_warning(tmp_path: Path):
    data = cleaned(tmp_path, only={"m1.json": match([delivery(1)])})
    report = read_json(data / "quality.json", Quality)
    assert not any("warning" in line or "can’t be read" in line for line in table(report))
