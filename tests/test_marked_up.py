"""A kept script as it is read: whatever is in it, and what is wrong with it by its line."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.errors import UserError
from pipeline.slots.filled import filled
from pipeline.slots.marked_up import MOST, Block, Mark, blocks_of, read_script
from pipeline.transcripts.read_in import passages_of
from tests.test_fact_forms import MOVE, VALUE, fact

FACTS = [fact(MOVE), fact(VALUE)]
TEXT = """# Who paid?

<!-- a note
of two lines -->

## 1. The answer (0:10, 0:10 so far)

> Chart: b.economy

Economy fell by {{ b.economy.change | size }},
and that *is* a change.
- Before: {{b.economy.before|shown}}.

> Sponsor: The break (0:30)
> Hold up the ball.

---
## Close
"""


def blocks(text: str) -> list[Block]:
    return blocks_of(text, "kept.md")


def wrong(text: str) -> list[str]:
    with pytest.raises(UserError) as caught:
        filled(blocks(text), FACTS, ["b.economy"], "kept.md")
    return [str(problem) for problem in caught.value.problems]


def test_headings_cues_and_lines_are_read_with_their_times():
    script = filled(blocks(TEXT), FACTS, ["b.economy"], "kept.md")
    assert script.title == "Who paid?"
    answer, close = script.parts
    assert (answer.title, close.title) == ("1. The answer", "Close")
    assert [(row.kind, row.text) for row in answer.rows] == [
        ("chart", "b.economy"),
        ("line", "Economy fell by about seven per cent, and that is a change."),
        ("line", "Before: 4.49."),
        ("sponsor", "The break"),
        ("note", "Hold up the ball."),
    ]
    assert [run.text for run in answer.rows[1].runs if run.number] == ["about seven per cent"]
    assert [run.text for run in answer.rows[1].runs if run.stressed] == ["is"]
    assert answer.words == 12 + 5 and answer.rows[3].time == "0:30"
    assert (answer.time, answer.total, script.total) == ("0:36", "0:36", "0:36")
    assert (close.rows, close.words, close.time) == ([], 0, "0:00")


@pytest.mark.parametrize("change", ["\r\n", "\r"])
def test_any_line_ends_a_mark_of_order_and_tabs_make_no_odds(change: str):
    text = "\ufeff" + TEXT.replace("| size", "|\tsize").replace("\n", change)
    there, then = blocks(text), blocks(TEXT)
    assert [(b.kind, b.line, b.seconds) for b in there] == [
        (b.kind, b.line, b.seconds) for b in then
    ]
    assert filled(there, FACTS, ["b.economy"], "") == filled(then, FACTS, ["b.economy"], "")


def test_what_can_not_be_filled_is_told_by_its_line_with_what_to_write():
    told = wrong(TEXT.replace("b.economy.change", "b.economy.chnage").replace("shown", "shwon"))
    assert told == [
        "kept.md:10:17: no fact 'b.economy.chnage' (did you mean 'b.economy.change'?); "
        "facts.csv has every id",
        "kept.md:12:11: no form 'shwon' (did you mean 'shown'?)",
    ]
    (told,) = wrong("{{ b.economy.before | range }}")
    assert "has no form 'range'; it has: said, rounded, number, between" in told
    (told,) = wrong("> Chart: b.econmy")
    assert told.startswith("kept.md:1:1: no chart 'b.econmy' (did you mean 'b.economy'?)")


@pytest.mark.parametrize(
    ("text", "place", "what"),
    [
        ("a\n\nb {{ c", "3:3", "'{{' is not closed by '}}'"),
        ("a }} b", "1:3", "'}}' has no '{{' before it"),
        ("a {{ }} b", "1:3", "'{{}}' is no slot"),
        ("a {{ x | }} b", "1:3", "is no slot"),
        ("a {{ x | y | z }} b", "1:3", "is no slot"),
        ("a {{ x {{ y }} z", "1:3", "'{{' is not closed"),
        ("a\n<!-- b\n\n{{ c }}", "2:1", "'<!--' is not closed by '-->'"),
    ],
)
def test_what_is_no_slot_is_told(text: str, place: str, what: str):
    told = wrong(text)
    assert told[0].startswith(f"kept.md:{place}: ") and what in told[0]


def test_braces_and_stars_can_be_written():
    (block,) = blocks(r"\{\{ not | one \}\} and 5 * 3 * 2, *said*, **so** and \*plain\* * end")
    text = "".join(piece for piece in block.pieces if isinstance(piece, str))
    assert text == "{{ not | one }} and 5 * 3 * 2, said, so and *plain* * end"
    assert [piece.opens for piece in block.pieces if isinstance(piece, Mark)] == [True, False] * 2


def test_items_lose_their_marks_and_years_do_not():
    text = "- One.\n* Two.\n3. Three.\n2017. That was it.\n\n2) Four."
    script = filled(blocks(text), FACTS, [], "")
    said = [row.text for row in script.parts[0].rows]
    assert said == ["One.", "Two.", "Three. 2017. That was it.", "Four."]


def test_an_empty_script_is_one():
    for text in ("", "\n\n", "\ufeff", "<!-- nothing -->", "---"):
        script = filled(blocks(text), FACTS, [], "")
        assert (script.parts, script.words, script.total) == ([], 0, "0:00")


def test_a_file_far_too_long_is_refused_at_once(tmp_path: Path):
    path = tmp_path / "a b é.script.md"
    path.write_text("{{" * 5 * MOST, "utf-8")
    with pytest.raises(UserError, match=r"at most 1,000,000: is it the right file"):
        read_script(path)


@pytest.mark.parametrize("sign", ["{{", "{", "*", "<!--", "# ", "> ", "\n", "\\", "}} ", "{{ x }}"])
def test_much_of_the_same_is_read_in_no_time(sign: str):
    text = sign * (300_000 // len(sign))
    try:
        filled(blocks(text), FACTS, [], "")
    except UserError as error:
        assert len(error.problems) <= 50


@pytest.mark.parametrize("content", [b"\xff\xfe#", b"a\0b"])
def test_what_is_no_text_is_refused(tmp_path: Path, content: bytes):
    path = tmp_path / "x.script.md"
    path.write_bytes(content)
    with pytest.raises(UserError):
        read_script(path)
    path.unlink()
    path.mkdir()
    with pytest.raises(UserError, match=r"not a file$"):
        read_script(path)
    with pytest.raises(UserError, match=r"no such file$"):
        read_script(tmp_path / "none.md")


def test_what_is_in_other_letters_is_told_with_its_line_and_what_to_do(tmp_path: Path):
    path = tmp_path / "x.script.md"
    path.write_bytes("# T\n\nna\xefve\n".encode("latin-1"))
    with pytest.raises(UserError) as caught:
        read_script(path)
    assert str(caught.value) == f"{path}:3:3: not UTF-8 text (byte 7); save it as UTF-8"
    captions = tmp_path / "x.srt"
    captions.write_bytes("1\n00:00:01,000 --> 00:00:02,000\nna\xefve\n".encode("latin-1"))
    with pytest.raises(UserError) as caught:
        passages_of(captions, [])
    assert str(caught.value).startswith(
        f"{captions}:3:3: not UTF-8 text (byte 34); save it as UTF-8"
    )


PARTS = [
    "{{",
    "}}",
    " | ",
    "b.economy.change",
    "said",
    "*",
    "**",
    "\\",
    "\n",
    "\t",
    "# ",
    "> Chart: ",
]
PARTS += [
    "> Sponsor: x (9:99)",
    "<!--",
    "-->",
    "- ",
    "1. ",
    "é ",
    "\u2028",
    "\x85",
    "(0:10)",
    "word ",
]


@given(st.lists(st.sampled_from(PARTS) | st.text(max_size=3), max_size=30).map("".join))
def test_nothing_in_it_is_more_than_a_mistake(text: str):
    try:
        script = filled(blocks(text.replace("\0", "")), FACTS, ["b.economy"], "kept.md")
    except UserError as error:
        lines = len(text.replace("\r\n", "\n").replace("\r", "\n").split("\n"))
        assert all(1 <= (problem.line or 0) <= lines for problem in error.problems)
    else:
        assert script.words == sum(part.words for part in script.parts)
