"""Scripts and captions as sentences: however they break, roll or lack signs, no number is cut."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.errors import UserError
from pipeline.slots.marked_up import MOST
from pipeline.transcripts.caption_files import LARGEST, Caption, captions
from pipeline.transcripts.goes_on import goes_on
from pipeline.transcripts.joined import MOST as MOST_WORDS
from pipeline.transcripts.joined import passages
from pipeline.transcripts.passage import Passage
from pipeline.transcripts.read_in import has_times, passages_of
from pipeline.transcripts.rolling import spoken
from pipeline.transcripts.script_text import of_text
from pipeline.transcripts.sentence_ends import LONGEST, sentence_spans
from pipeline.wording import numbers
from tests.bench.captions import SECONDS, WORDS
from tests.bench.captions import captions as made_captions
from tests.test_fact_forms import MOVE, VALUE, fact

ROLLING = """WEBVTT
Kind: captions

NOTE seven hundred

00:01.000 --> 00:03.000
 
spin's economy<00:01.500><c> went</c> for forty

00:03.000 --> 00:03.010
spin's economy went for forty

00:03.010 --> 00:05.000
spin's economy went for forty
three point eight &amp; that's

00:05.000 --> 00:07.000
three point eight &amp; that&#39;s
[Music] no small thing

STYLE
::cue { color: red }
"""


def read(path: Path, text: str, more: str = "") -> list[Passage]:
    path.write_bytes(f"{more}{text}".encode())
    return passages_of(path, [fact(MOVE), fact(VALUE)])


def cues(*said: tuple[int, int, str]) -> list[Passage]:
    """Sentences of captions: each with its begin and end in milliseconds, and its words."""
    return passages([Caption(begins, ends, [text]) for begins, ends, text in said])


def texts(found: list[Passage]) -> list[str]:
    return [passage.text for passage in found]


def refusal(path: Path) -> str:
    with pytest.raises(UserError) as caught:
        passages_of(path, [fact(MOVE)])
    return str(caught.value)


# Captions


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_rolling_captions_are_said_once_and_a_number_across_two_is_one(tmp_path, ends, mark):
    (one,) = read(tmp_path / "a.vtt", ROLLING.replace("\n", ends), mark)
    assert one.text == ("spin's economy went for forty three point eight & that's no small thing")
    assert one.start == 1000 and one.line is None
    assert [one.text[at:].split()[0] for at, _ in one.turns] == ["spin's", "three", "no"]
    assert one.at(one.text.index("eight")) == 3010 and one.at(0) == 1000


def test_subrip_with_signs_is_split_by_them_and_each_begins_at_its_caption(tmp_path):
    text = (
        "1\n00:00:01,000 --> 00:00:02,000\nEconomy fell. It fell by 8.5%,\n\n"
        "2\n00:00:04,000 --> 00:00:06,000\n- to 4.1 an over. <i>Dr. Who</i> agrees.\n\n"
    )
    found = read(tmp_path / "a.srt", text)
    assert [(one.text, one.start) for one in found] == [
        ("Economy fell.", 1000),
        ("It fell by 8.5%, to 4.1 an over.", 1000),
        ("Dr. Who agrees.", 4000),
    ]


def test_without_signs_a_pause_ends_a_sentence_but_not_inside_a_number():
    found = cues(
        (0, 2000, "spin got its game back and it fell by eight"),
        (3500, 5000, "and a half per cent in the middle overs"),
        (6500, 8000, "pace did not move at all in that time"),
    )
    assert texts(found) == [
        "spin got its game back and it fell by eight and a half per cent in the middle overs",
        "pace did not move at all in that time",
    ]
    assert [one.start for one in found] == [0, 6500]


def test_a_long_silence_ends_a_sentence_whatever_stood_last():
    found = cues((0, 2000, "it came to four point"), (9000, 9500, "one more thing"))
    assert texts(found) == ["it came to four point", "one more thing"]


def test_words_without_end_are_cut_where_no_number_is():
    said = "spin went for four point one an over and pace for five point three of them " * 12
    found = cues((0, 60_000, said.strip()))
    assert " ".join(texts(found)) == said.strip() and len(found) > 4
    for one in found:
        assert len(one.text.split()) <= MOST_WORDS + 1
        assert one.text.count("point") == one.text.count(" four point one an over") + (
            one.text.count(" five point three")
        )


@given(st.integers(0, 10**6), st.integers(1, 12), st.integers(0, 9))
def test_no_number_is_cut_wherever_its_captions_end(number: int, size: int, odd: int):
    """In captions of any number of words, without a pause and with one."""
    said = f"{numbers.said(number + odd / 10, 1)} runs an over"
    words = f"well we counted it again and it came to {said} in the end of it".split()
    parts = [" ".join(words[at : at + size]) for at in range(0, len(words), size)]
    for pause in (0, 2000):
        shown = [(at * 4000, at * 4000 + 4000 - pause, part) for at, part in enumerate(parts)]
        assert any(said in one for one in texts(cues(*shown)))


@pytest.mark.parametrize(
    ("word", "following", "after", "whole"),
    [
        ("forty", "three", [], True),
        ("point", "eight", [], True),
        ("eight", "per", ["cent"], True),
        ("eight", "and", ["a", "half"], True),
        ("eight", "and", ["a", "bat"], False),
        ("one", "in", ["five"], True),
        ("one", "and", ["the", "run"], False),
        ("runs", "an", ["over"], True),
        ("twelve", "to", ["eighteen"], True),
        ("four", "for", ["thirty-two"], True),
        ("43", "per", ["cent"], True),
        ("fell", "by", [], True),
        ("by", "eight", [], True),
        ("eight.", "Nine", [], False),
        ("eight,", "nine", [], False),
        ("grass", "grew", [], False),
        ("overs", "fell", ["by"], True),
        ("down", "and", ["three"], True),
        ("cent", "down", [], True),
        ("grass", "and", ["so"], False),
    ],
)
def test_what_goes_on_from_one_word_to_the_next(word, following, after, whole):
    assert goes_on(word, following, after) is whole


def test_a_digit_that_is_said_twice_is_kept():
    shown = [Caption(0, 1, ["five point one"]), Caption(1, 2, ["one an over"])]
    assert [one.text for one in spoken(shown)] == ["five point one", "one an over"]


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (["spin", "spin", "spin\ngot its game back"], "spin got its game back"),
        (["it fell by", "it fell by\ntwo", "two", "two\nper cent"], "it fell by two per cent"),
        (["it was one", "one an over"], "it was one one an over"),
        (["one", "one an over"], "one one an over"),
        (
            ["it", "came", "to", "four", "point", "four", "four", "runs", "an", "over"],
            "four point four four runs",
        ),
    ],
)
def test_a_word_that_is_a_line_and_shown_again_is_said_once(lines: list[str], words: str):
    shown = [Caption(at, at + 1, text.split("\n")) for at, text in enumerate(lines)]
    assert words in " ".join(one.text for one in spoken(shown))


SAID = "spin went from four point five an over down to four point one in the middle overs"


def grown(lines: list[str], above: bool) -> list[Caption]:
    """Each line word by word, with the one before it above it or by itself."""
    shown = list[Caption]()
    for before, line in zip(["", *lines], lines, strict=False):
        words = line.split()
        for many in range(1, len(words) + 1):
            text = " ".join(words[:many])
            time = len(shown) * 300
            shown.append(Caption(time, time + 300, [before, text] if above and before else [text]))
    return shown


@given(st.integers(1, 8), st.booleans())
def test_lines_that_grow_word_by_word_are_said_once(size: int, above: bool):
    words = SAID.split()
    lines = [" ".join(words[at : at + size]) for at in range(0, len(words), size)]
    told = spoken(grown(lines, above))
    assert " ".join(one.text for one in told) == SAID


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (["four", "four point", "four point one"], "four point one"),
        (["Four", "four point one", "four point one an over"], "Four point one an over"),
        (["one", "one", "one an", "one an over"], "one an over"),
        (["it was one", "one", "one an", "one an over"], "it was one one an over"),
        (["it fell by\nfour", "four point", "four point one"], "it fell by four point one"),
        (["four", "four four", "four four runs"], "four four runs"),
        (
            ["it", "it fell", "by", "by two", "per", "per cent", "so", "so"],
            "it fell by two per cent so",
        ),
        (
            ["to four", "point", "point one", "one", "one an over"],
            "to four point one one an over",
        ),
    ],
)
def test_a_line_of_one_word_that_grows_is_said_once(lines: list[str], words: str):
    shown = [Caption(at, at + 1, text.split("\n")) for at, text in enumerate(lines)]
    assert " ".join(one.text for one in spoken(shown)) == words


@pytest.mark.parametrize("name", ["a.vtt", "a.srt"])
def test_a_line_with_the_times_of_its_words_is_a_line_of_words(tmp_path: Path, name: str):
    text = (
        "00:00:01.000 --> 00:00:04.000\nit fell by\n\n00:00:04.000 --> 00:00:06.000\n"
        "nearly<00:00:05.000><c> nine</c><00:00:05.500><c.white> percent</c>\n"
    )
    (one,) = read(tmp_path / name, ("WEBVTT\n\n" if name == "a.vtt" else "") + text)
    assert one.text == "it fell by nearly nine percent"
    assert one.at(one.text.index("nine")) == 4000


@pytest.mark.parametrize("broken", ["00:00:01 -->", "--> 00:00:02,000", "00:00:01 --> 00:00:02"])
def test_a_line_of_times_that_is_broken_is_told_with_its_line(tmp_path: Path, broken: str):
    path = tmp_path / "a.srt"
    path.write_text(f"1\n00:00:00,000 --> 00:00:01,000\nIt\n\n2\n{broken}\nfell by six.\n", "utf-8")
    said = refusal(path)
    assert said.startswith(f"{path}:6:1: '{broken}' is no line of times; write it as 00:00:01,000")
    path.write_text("1\n00:00:00,000 --> 00:00:01,000\nIt fell --> by six.\n", "utf-8")
    assert "by six" in " ".join(texts(passages_of(path, []))), "an arrow in words is none"


def test_captions_that_are_none_are_refused(tmp_path: Path):
    for name, text, told in (
        ("a.vtt", "", "no captions in it; expected SubRip (.srt), WebVTT"),
        ("b.srt", "WEBVTT\n\n", "no captions in it"),
        ("c.vtt", "WEBVTT\n\n" + "word " * 2000, "characters without a time (-->)"),
    ):
        (tmp_path / name).write_text(text, "utf-8")
        assert told in refusal(tmp_path / name)
    (tmp_path / "d.srt").write_bytes(b"1\n00:00:01,000 --> 00:00:02,000\n\xff\xfe\n")
    assert "not UTF-8 text (byte" in refusal(tmp_path / "d.srt")
    (tmp_path / "e.srt").write_bytes(b"a" * (LARGEST + 1))
    assert f"the most is {LARGEST:,}" in refusal(tmp_path / "e.srt")


def test_captions_of_two_megabytes_are_read(tmp_path: Path):
    one = "{at}\n00:{minutes:02}:{seconds:02},000 --> 00:{minutes:02}:{seconds:02},900\n{text}\n\n"
    text, many = "It fell by eight and a half per cent, " * 6, 0
    parts, size = [], 0
    while size < LARGEST - 1000:
        many += 1
        said = one.format(
            at=many, minutes=many // 60 % 60, seconds=many % 60, text=f"{text}{many}."
        )
        parts.append(said)
        size += len(said)
    found = read(tmp_path / "large.srt", "".join(parts))
    assert sum(passage.text.count("eight and a half") for passage in found) == 6 * many


# Scripts


def test_the_kept_script_is_filled_and_each_sentence_has_its_line_and_heading(tmp_path: Path):
    text = (
        "# Who paid?\n\n<!-- a note -->\n## 2. The answer (0:10, 0:10 so far)\n\n> Chart: b.economy"
        "\n\nIt fell by\n{{ b.economy.change | size }}. That\nis *much*. {{ b.economy.before }} it"
        " was.\n\n> Sponsor: nine lives (0:30)\n"
    )
    found = read(tmp_path / "t.script.md", text.replace("\n", "\r\n"), "\ufeff")
    assert [(one.text, one.line, one.heading) for one in found] == [
        ("It fell by about seven per cent.", 8, "The answer"),
        ("That is much.", 9, "The answer"),
        ("four point four nine an over it was.", 10, "The answer"),
    ]
    (slot,) = found[0].slots
    assert found[0].text[slot.begins : slot.ends] == "about seven per cent"
    assert slot.fact == "b.economy.change" and not found[1].slots
    assert found[2].slots[0].begins == 0


def test_a_slot_of_no_fact_is_told_with_its_line(tmp_path: Path):
    path = tmp_path / "t.script.md"
    path.write_text("# T\n\nIt fell by\n{{ b.economy.chang | size }}.\n", "utf-8")
    said = refusal(path)
    assert said.startswith(f"{path}:4:1: no fact 'b.economy.chang' (did you mean 'b.economy.change")


def test_plain_text_is_split_by_signs_lines_and_paragraphs():
    found = of_text(
        "Economy fell. It fell\nby eight and a half per cent of what it had been before\nthe grass."
        "\nA heading of its own\nNo. 8 paid, No. Eight of them.\n\n- First: four\n- Then five"
    )
    assert [(one.text, one.line) for one in found] == [
        ("Economy fell.", 1),
        ("It fell by eight and a half per cent of what it had been before the grass.", 1),
        ("A heading of its own", 4),
        ("No. 8 paid, No.", 5),
        ("Eight of them.", 5),
        ("First: four", 7),
        ("Then five", 8),
    ]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("It was 4.5. It is 4.1!", 2),
        ("“Did it?” It did.", 2),
        ("Four... sorry, four and a half.", 1),
        ("it fell. it came to four. “so?” you ask", 3),
        ("A. N. Other and Mr. Someone made it, vs. pace.", 1),
        ("It was 7.05 (see no. 3). Really?! Yes…", 3),
        ("   ", 0),
    ],
)
def test_where_sentences_end(text: str, parts: int):
    assert len(list(sentence_spans(text))) == parts


def test_the_bench_s_captions_are_two_hours_of_words_without_signs(tmp_path: Path):
    text = made_captions(["Spin fell by eight and a half per cent.", "So it did!"], WORDS, SECONDS)
    (tmp_path / "long.vtt").write_text(text, "utf-8")
    shown = captions(tmp_path / "long.vtt")
    assert sum(len(one.text.split()) for one in shown) == WORDS == 20_000
    assert SECONDS * 990 < shown[-1].end <= SECONDS * 1000 and "." not in shown[0].text
    assert sum(one.text.count("eight and a half per cent") for one in passages(shown)) > 1500


def test_what_never_ends_is_cut_so_that_it_can_be_judged():
    for text in ("seven point " * 5000, "7" * 9000):
        found = of_text(text)
        assert "".join(one.text for one in found).replace(" ", "") == text.replace(" ", "")
        assert max(len(one.text) for one in found) <= LONGEST
    shown = cues((0, 9000, "seven point " * 500))
    assert max(len(one.text.split()) for one in shown) <= 2 * MOST_WORDS


@given(st.text(max_size=120))
def test_any_text_is_in_sentences_that_hold_all_of_it(text: str):
    said = "".join(one.text for one in of_text(text))
    assert set(said.replace(" ", "")) <= set(text) | {" "}
    spans = list(sentence_spans(text))
    assert "".join("".join(text[a:b].split()) for a, b in spans) == "".join(text.split())


def test_an_empty_script_has_no_sentence_and_one_that_is_too_long_is_refused(tmp_path: Path):
    assert read(tmp_path / "a.txt", "") == [] and read(tmp_path / "a.md", "") == []
    (tmp_path / "b.txt").write_text("word " * (MOST // 5 + 1), "utf-8")
    assert f"a script has at most {MOST:,}" in refusal(tmp_path / "b.txt")
    assert "no such file" in refusal(tmp_path / "none.md").lower()
    assert has_times(Path("a.SRT")) and not has_times(Path("a.TXT"))


def test_a_caption_file_s_lines_are_those_that_are_shown(tmp_path: Path):
    path = tmp_path / "a.srt"
    path.write_text("1\n00:00:01,000 --> 00:00:02,000\n>> one\ntwo  \n", "utf-8")
    (shown,) = captions(path)
    assert shown == Caption(1000, 2000, ["one", "two"]) and shown.text == "one two"
