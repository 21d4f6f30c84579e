"""The run sheet: times from words, slots after their beats, and what they add up to."""

from __future__ import annotations

from dataclasses import replace

from pipeline.brief.beats import BeatPage, Drawing, Part
from pipeline.brief.runsheet import RunSheet, opening, run_sheet
from pipeline.brief.spoken import Around, Spoken
from pipeline.config.topic import Sponsor
from pipeline.voice.line import Line


def part(chart: str, *lines: str) -> Part:
    return Part(
        **{
            "measure": "economy",
            "unit": "runs an over",
            "named": "economy",
            "under": [],
            "change": "Change",
            "interval": "95% interval",
            "levels": [],
            "share": False,
            "left_out": "",
        },
        **{"sides": ["Before", "After"], "extra": "Could see", "wide": False, "rows": []},
        chart=Drawing(chart, "Economy.", "8 s"),
        panels=[],
        told=[Line((line,)) for line in lines],
    )


def page(identity: str, position: int, *parts: Part) -> BeatPage:
    return BeatPage(
        **{"id": identity, "position": position, "count": 2, "title": identity.title()},
        **{"note": None, "challenged": [], "careful": [], "again": "", "dont_say": []},
        parts=list(parts),
    )


def sheet_of(
    pages: list[BeatPage], slots: list[Sponsor], other: tuple[str, ...] = (), **around: str
) -> RunSheet:
    """The run sheet of these pages; `around` is what is said before or after them."""
    said = {name: [Line((text,))] for name, text in around.items()}
    plain = {"cold_open": [], "answer": [], "close": []}
    return run_sheet(Spoken(Around(**{**plain, **said}), pages, list(other), "so"), slots)


MINUTE = "It rose. " + "word " * 158


def test_the_run_sheet_adds_up_with_its_sponsors():
    pages = [page("one", 1, part("one.rate", MINUTE)), page("two", 2)]
    sheet = sheet_of(pages, [Sponsor(after="one", seconds=30)])
    assert [row.total for row in sheet.rows] == ["1:00", "1:30", "1:30"]
    assert [row.time for row in sheet.rows] == ["1:00", "0:30", "0:00"]
    assert [row.words for row in sheet.rows] == [160, None, 0] and sheet.words == 160
    assert sheet.rows[0].opening == "It rose." and sheet.rows[1].sponsor == "Sponsor"
    assert (sheet.total, sheet.range) == ("1:30", "1:23 to 1:34")


def test_a_beat_of_several_measures_is_one_row_with_all_its_charts():
    beat = page("one", 1, part("one.rate", "It rose."), part("one.share", MINUTE))
    (row,) = sheet_of([beat], []).rows
    assert row.charts == ["one.rate", "one.share"] and row.words == 162
    assert (row.id, row.position, row.title, row.opening) == ("one", 1, "One", "It rose.")


def test_slots_follow_their_own_beat_in_the_order_of_the_topic():
    pages = [page("one", 1), page("two", 2)]
    slots = [
        Sponsor(after="two", seconds=5, say="Last"),
        Sponsor(after="one", seconds=10, say="First"),
        Sponsor(after="one", seconds=15),
    ]
    rows = sheet_of(pages, slots).rows
    assert [row.id or row.sponsor for row in rows] == ["one", "First", "Sponsor", "two", "Last"]
    assert [row.total for row in rows] == ["0:00", "0:10", "0:25", "0:25", "0:30"]


def test_what_is_said_around_the_beats_has_its_time_and_its_place():
    pages = [replace(page("one", 1, part("one.rate", MINUTE)), opening=Line(("Start here.",)))]
    sheet = sheet_of(pages, [], cold_open="Did it?", answer="It did. So there.", close="Who knows?")
    assert [row.title for row in sheet.rows] == ["Cold open", "The answer", "One", "Close"]
    assert [row.words for row in sheet.rows] == [2, 4, 162, 2] and sheet.words == 170
    assert [row.opening for row in sheet.rows] == [
        "Did it?",
        "It did.",
        "Start here.",
        "Who knows?",
    ]


def test_another_order_is_told_by_its_headings():
    pages = [page("one", 1), page("two", 2)]
    assert sheet_of(pages, [], other=("two", "one")).other == ["Two", "One"]


def test_the_opening_is_the_first_sentence():
    assert opening([]) == "" and opening(["No stop"]) == "No stop"
    assert opening(["At 4.5 it rose. And fell.", "More."]) == "At 4.5 it rose."
