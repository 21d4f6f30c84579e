"""A headline asked in other ways, in words and as a picture: what is said and where it is drawn."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.brief.facts import facts_of
from pipeline.charts.canvas import Canvas
from pipeline.charts.chart import Chart
from pipeline.charts.compose import charts_of, render
from pipeline.charts.data import data_of
from pipeline.charts.drawings import described
from pipeline.config.frame_files import panel_charts
from pipeline.config.kinds.before_after import BeforeAfter
from pipeline.config.kinds.turning_point import TurningPoint
from pipeline.contracts import codes
from pipeline.contracts.notes import OneCarries
from pipeline.contracts.panel import Choice, Panel
from pipeline.wording.other_ways import carries_said, panel_said, panel_title
from tests.brief_makers import brief_view, findings_of
from tests.chart_makers import chart, charts_view, drawn, numbers, row
from tests.finding_makers import change
from tests.frame_checks import boxes, check
from tests.word_makers import ECONOMY, FORM

GIVEN = ("shorter", "longer", "match", "held still")  # that have no name of any kind
NAMES = st.text("abcdefgh ÅÉłñ", min_size=1, max_size=40).map(lambda name: name.strip() or "x")
KINDS = get_args(codes.Way)
NAMED = {"shorter": "both", "longer": "after", "period": "2018", "ground": "Moor Top"}
NAMED |= {
    "held still": "batting_team, ground",
    "side": "Quillport",
    "match": "Quillport v Foxley, 2018-05-12",
}


def choice(kind: Any, same: bool = True, what: str | None = None, **more: Any) -> Choice:
    """One way; the change is 4 to 16 per cent in it, and can't be told where it is not the same."""
    plain: dict[str, Any] = {"value": 0.1, "low": 0.04, "high": 0.16}
    told = "changed" if same else "can't tell"
    named = NAMED.get(kind, "") if what is None else what
    return Choice(kind=kind, what=named, same=same, **{**plain, "verdict": told, **more})


def panel(*choices: Choice, stretch: Any = "season") -> Panel:
    return Panel(stretch=stretch, choices=list(choices))


def asked(told: Panel | None, **more: Any) -> Chart:
    """A change of about ten per cent as its panel is drawn."""
    plain = {**numbers(5.0, 5.5), "verdict": "changed", "because": "beyond_chance"}
    finding = change("b.economy", **{**plain, "panel": told, **more})
    made = chart(BeforeAfter, [finding])
    return Chart(**{**vars(made), "name": "b.economy.panel", "again": True})


def said_of(told: Panel | None) -> str:
    """Of a headline that changed."""
    return panel_said(told, "changed", ECONOMY)


def diamonds(canvas: Canvas, shape: str = "D") -> list[tuple[float, float]]:
    return [
        (float(line.get_xdata()[0]), float(line.get_ydata()[0]))
        for axes in canvas.figure.axes
        for line in axes.lines
        if line.get_marker() == shape
    ]


def test_where_all_agree_that_is_all_that_is_said():
    told = panel(*[choice("side", what=f"Club {at}") for at in range(19)])
    assert said_of(told) == "All nineteen reasonable ways of working it out showed the same."
    open_ = panel_said(told, "can't tell", ECONOMY)
    assert open_ == "Just as open in all nineteen reasonable ways of asking."
    assert panel_title(told) == "The same in all 19 ways of asking"
    assert said_of(None) == said_of(panel()) == ""


@pytest.mark.parametrize(
    ("turning", "said"),
    [
        (choice("period", same=False), "without the 2018 season"),
        (choice("ground", same=False), "without the matches at Moor Top"),
        (choice("side", same=False), "without Quillport"),
        (choice("longer", same=False), "with one season more after"),
        (choice("shorter", same=False), "with one season fewer on each side"),
        (choice("reduced", same=False), "without the shortened chases"),
        (choice("match", same=False), "without one match, Quillport v Foxley on 12 May 2018"),
        (
            choice("match", same=False, what="2018-05-12"),
            "without one match, the one on 12 May 2018",
        ),
        (choice("scale", same=False), "with its error in runs an over"),
    ],
)
def test_what_turns_it_is_named(turning: Choice, said: str):
    assert said_of(panel(turning)) == f"Not the same {said}, the one other way of asking."


def test_of_several_it_is_told_in_how_many_it_is_the_same():
    turning = [choice("side", same=False, what=f"Club {at}") for at in "ABCD"]
    told = panel(choice("ground"), *turning)
    assert said_of(told) == "We worked it out five ways, and one of them showed the same."
    open_ = panel_said(told, "can't tell", ECONOMY)
    assert open_ == "We asked it five ways. One left it just as open."
    assert said_of(panel(*turning)) == ("The same in none of four reasonable ways of asking.")
    alone = "the one other way of asking."
    assert said_of(panel(turning[0])) == f"Not the same without Club A, {alone}"
    assert said_of(panel(choice("side"))) == f"The same without Quillport, {alone}"


def test_a_year_is_named_as_a_year():
    told = panel(choice("period", same=False, what="2018"), stretch="year")
    assert said_of(told).startswith("Not the same without 2018, ")
    laid = choice("period", same=False, what="year from 5 Jun 2016")
    assert said_of(panel(laid, stretch="year")).startswith(
        "Not the same without the year from 5 Jun 2016, "
    )


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({}, "leave the matches of Quillport out, and it can’t be told."),
        (
            {"refused": "few_matches"},
            "leave the matches of Quillport out, and there are too few matches to tell.",
        ),
        ({"verdict": "held"}, "leave the matches of Quillport out, and it held."),
        (
            {"verdict": "changed", "other_way": True},
            "leave the matches of Quillport out, and it goes the other way.",
        ),
        ({"verdict": "changed"}, "leave the matches of Quillport out, and it moved."),
        (
            {"kind": "ground", "name": "Moor Top"},
            "leave the matches at Moor Top out, and it",
        ),
        (
            {"kind": "period", "name": "2018"},
            "leave the 2018 season out, and it can’t be told.",
        ),
    ],
)
def test_what_becomes_of_it_without_the_one_that_carries_it(more: dict[str, Any], said: str):
    plain = {"kind": "side", "name": "Quillport", "stretch": "season", "verdict": "can't tell"}
    found = carries_said(OneCarries(**{**plain, **more}), "Run rate")
    assert found.startswith(f"Run rate: {said}")


def test_the_fact_counts_the_ways():
    told = panel(choice("side"), choice("ground", same=False))
    finding = change("b.economy", panel=told)
    view = brief_view([BeforeAfter(id="b", kind="before_after", measure="economy")])
    (fact,) = [one for one in facts_of(view, findings_of(finding)) if one.id == "b.economy.same-in"]
    assert (fact.value, fact.display, fact.spoken) == (1, "1 of 2", "one of two")
    assert fact.low is None and fact.unit == "of 2 ways of asking"


def test_each_way_has_its_mark_at_its_value_and_a_cross_where_there_is_none():
    none = {"value": None, "low": None, "high": None, "verdict": "can't tell"}
    told = panel(
        choice("period", value=0.07),
        choice("side", value=0.12),
        choice("side", same=False, what="Foxley", refused="few_matches", **none),
        choice("scale", value=0.1),
    )
    canvas = drawn(asked(told))
    assert [x for x, _ in diamonds(canvas)] == pytest.approx([10.0, 7.0, 12.0, 10.0])
    rows = [y for _, y in diamonds(canvas)]
    assert rows == sorted(rows)
    ((x, y),) = diamonds(canvas, "x")
    assert x == 0 and rows[2] < y < rows[3]
    said = " ".join(words for words, _ in boxes(canvas))
    assert "The same in 3 of 4 ways of asking" in said and "not Foxley" in said
    assert "1 of 2" in said and "without each season" in said


def test_those_that_turn_it_are_named_as_far_as_they_have_room_and_else_counted():
    turning = ["Foxley", "Quillport", "Long Bottom Common", "Sandgrave and District", "Tolmere"]
    told = panel(choice("side"), *[choice("side", same=False, what=one) for one in turning])
    canvas = drawn(asked(told))
    check(canvas)
    (said,) = [words for words, _ in boxes(canvas) if words.startswith("not ")]
    names, _, more = said.removeprefix("not ").partition(" and ")
    kept = names.split(", ")
    assert kept == turning[: len(kept)] and more == f"{len(turning) - len(kept)} more"
    assert 1 <= len(kept) < len(turning)


def test_without_a_number_the_picture_says_why(tmp_path: Path):
    made = asked(None, **numbers(None, 5.5), effect=None)
    canvas = drawn(made)
    check(canvas)
    assert "There is no number here to ask again" in [words for words, _ in boxes(canvas)]
    assert not diamonds(canvas)
    assert "There is no number to ask again" in described(made, FORM)
    assert data_of(made).splitlines() == ["kind,what,value,low,high,verdict,same,refused"]
    render(made, charts_view(), tmp_path)
    assert {path.suffix for path in tmp_path.iterdir()} == {".png", ".svg", ".csv"}


def test_the_data_behind_it_and_its_description_hold_every_way():
    told = panel(choice("side"), choice("side", same=False, what="Foxley", value=0.02, low=-0.01))
    lines = list(csv.DictReader(io.StringIO(data_of(asked(told)))))
    assert [line["what"] for line in lines] == ["Quillport", "Foxley"]
    assert [float(line["value"]) for line in lines] == [0.1, 0.02]
    assert described(asked(told), FORM) == (
        "The same in 1 of 2 ways of asking. As it is asked: +10.0% (+7.0 to +13.0), changed; "
        "without each side: +2.0% to +10.0%, the same in 1 of 2, Foxley +2.0%, can't tell."
    )


@given(
    st.lists(
        st.tuples(
            st.sampled_from(KINDS),
            st.floats(-0.9, 3.0),
            st.floats(0.001, 2.0),
            st.booleans(),
            st.sampled_from(["changed", "held", "can't tell"]),
            NAMES,
        ),
        min_size=1,
        max_size=60,
    )
)
@settings(max_examples=20, deadline=None)
def test_any_panel_can_be_read(drawn_ways: list[tuple[Any, ...]]):
    told = panel(
        *[
            choice(
                kind,
                same,
                NAMED[kind] if kind in GIVEN else name,
                value=value,
                low=value - half,
                high=value + half,
                verdict=verdict,
            )
            for kind, value, half, same, verdict, name in drawn_ways
        ]
    )
    check(drawn(asked(told)))
    said = said_of(told)
    mixed = bool(told.turned) * (told.same > 0 or len(told.choices) == 1)
    assert (
        said.endswith(".")
        and bool(re.search("^We worked it out|^We asked it|^Not the same", said)) == mixed
    )


def test_every_headline_between_windows_has_a_chart_and_no_other_finding():
    beats = [
        BeforeAfter(id="b", kind="before_after", measure="economy"),
        TurningPoint(id="t", kind="turning_point", measure="economy"),
    ]
    assert panel_charts(beats, ["b.economy.x", "t.economy"]) == {"b.economy.x": "b.economy.x.panel"}
    rows = [row("x", 5.0, 5.5), row("y", 5.0, 5.6)]
    found = findings_of(*rows)
    view = charts_view(beats=beats[:1], headlines=["b.economy.x"])
    names = [(each.name, [one.id for one in each.findings]) for each in charts_of(view, found)]
    assert names == [
        ("b.economy", ["b.economy.x", "b.economy.y"]),
        ("b.economy.x.panel", ["b.economy.x"]),
    ]
