"""Captions and scripts that are odd: any number is heard, and what is no text is one line."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from pipeline.contracts.errata import Wording
from pipeline.errata.captions import in_captions
from pipeline.errata.hearing import heard
from pipeline.errors import UserError
from pipeline.transcripts.caption_files import LARGEST, LONGEST, captions
from pipeline.wording import script

SRT = "1\n00:00:01,000 --> 00:00:02,000\n{}\n"
VTT = "WEBVTT\n\n00:01.000 --> 00:02.000\n{}\n"
SAID = [Wording(old="four and a half", new="five", right=False, bare=False, of="")]


def refusal(path: Path) -> str:
    with pytest.raises(UserError) as caught:
        captions(path)
    (line,) = map(str, caught.value.problems)
    assert line.startswith(f"{path}: ") and "\n" not in line
    return line


@pytest.mark.parametrize(
    "number", ["1" * 29, "9" * 4400, "0." + "3" * 40, "1," * 20 + "000", "٣" * 30]
)
@pytest.mark.parametrize("name", ["c.srt", "c.vtt", "c.txt"])
def test_numbers_of_any_length_are_heard(tmp_path: Path, number: str, name: str):
    layout = {"c.srt": SRT, "c.vtt": VTT}.get(name, "{}")
    (tmp_path / name).write_text(layout.format(f"It was {number}, then four and a half."), "utf-8")
    (place,) = in_captions(tmp_path / name, SAID, "").places
    assert place.old == "four and a half"


def test_a_number_too_long_to_be_said_is_read_digit_by_digit():
    assert script.spelled("20" * 9) == " ".join(["two", "nought"] * 9)
    assert script.spelled("0.1234567890123456").startswith("nought point one two three four")
    assert (
        script.spelled("123,456")
        == "one hundred and twenty-three thousand four hundred and fifty-six"
    )


@given(text=st.text(max_size=80))
@example("&#" + "9" * 4400 + ";")
@settings(max_examples=300, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_text_is_heard_or_refused(tmp_path: Path, text: str):
    for name, layout in (("c.srt", SRT), ("c.vtt", VTT), ("c.txt", "{}")):
        (tmp_path / name).write_text(layout.format(text), "utf-8", "replace")
        try:
            in_captions(tmp_path / name, SAID, "")
        except UserError as error:
            assert str(error).startswith(f"{tmp_path / name}: ")
    assert all(word.text for word in heard(text))


def test_a_file_that_would_never_end_or_take_hours_is_refused(tmp_path: Path):
    os.mkfifo(tmp_path / "pipe.srt")
    assert "not a file of captions" in refusal(tmp_path / "pipe.srt")
    (tmp_path / "spaces.srt").write_text(SRT.format("<" + " " * LONGEST), "utf-8")
    assert "characters without a time" in refusal(tmp_path / "spaces.srt")
    (tmp_path / "large.txt").write_bytes(b"a" * (LARGEST + 1))
    assert f"the most is {LARGEST:,}" in refusal(tmp_path / "large.txt")
