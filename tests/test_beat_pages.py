"""A beat's page: what is put into words, in which order; chart, table and columns of care."""

from __future__ import annotations

from typing import Any

from pipeline.brief.beats import BeatPage, beat_page
from pipeline.brief.careful import NOTHING, Care
from pipeline.config.kinds import KINDS, AnyBeat
from pipeline.contracts.finding import Change, Finding, Groups
from pipeline.episode.choice import MOST
from pipeline.episode.lines_of import lines_of
from pipeline.wording.headings import headings
from tests.brief_makers import FOURS, brief_view, chart_made, findings_of, topic
from tests.chart_makers import ECONOMY, FORM
from tests.finding_makers import answer, change, drift, effect

BEAT: AnyBeat = KINDS["before_after"].model_validate(
    {"id": "b", "kind": "before_after", "measure": "economy", "by": "ground"}
)


NO_CARE = Care([], NOTHING)
GROUNDS = ("Alder", "Birch", "Cedar", "Elder")


def row(ground: str, size: float, p: float = 0.001, **more) -> Finding:
    """A row of the beat that changed by so much."""
    found = effect(size, 4.5 * size, p=p)
    return change(f"b.economy.{ground.lower()}", values={"ground": ground}, effect=found, **more)


def lines(*rows: Finding, headlines: tuple[str, ...] = ()) -> list[str]:
    findings = findings_of(*rows, headlines=list(headlines))
    made = lines_of(BEAT, brief_view([BEAT]), findings)
    return [line.text for line in made["economy"]]


def grounds(said: list[str]) -> list[str]:
    """Which row each line is of."""
    return [next(name for name in GROUNDS if name in line) for line in said]


def test_lines_that_turn_say_so():
    said = lines(row("Alder", 0.1), row("Birch", -0.1), row("Cedar", 0.1, verdict="held"))
    assert grounds(said) == ["Alder", "Birch", "Cedar"]
    assert [line.startswith("Now the other way. ") for line in said] == [False, True, False]


def test_the_surest_are_said_in_the_order_of_the_table():
    ps = (0.04, 0.01, 0.03, 0.02)
    said = lines(*(row(name, 0.1, p) for name, p in zip(GROUNDS, ps, strict=True)))
    assert len(said) == MOST and grounds(said) == ["Birch", "Cedar", "Elder"]


def test_a_headline_is_said_before_anything_surer():
    ps = (0.9, 0.01, 0.03, 0.02)
    rows = [row(name, 0.1, p) for name, p in zip(GROUNDS, ps, strict=True)]
    assert grounds(lines(*rows, headlines=("b.economy.alder",))) == ["Alder", "Birch", "Elder"]


def test_what_changed_is_said_first_and_what_is_refused_last():
    held = row("Birch", 0.001, 0.0001, verdict="held")
    rows = (row("Alder", 0.1, refused="few_matches"), held, row("Cedar", 0.1), row("Elder", 0.1))
    assert grounds(lines(*rows)) == ["Birch", "Cedar", "Elder"]
    more = [row(name, 0.1, 0.04) for name in GROUNDS]
    assert grounds(lines(held, *more[2:], more[0])) == ["Cedar", "Elder", "Alder"]


JUDGED: dict[str, Any] = {"p_adjusted": 0.002, "adjusted_by": "bh", "family_size": 12}
AGAIN: AnyBeat = KINDS["mix"].model_validate(
    {"id": "again", "kind": "mix", "measure": "economy", "by": ["ground"]}
)


def again_page(p: float) -> BeatPage:
    """The page of a mix's group that repeats the fourth row of another beat."""
    drifting = {"drift": drift("beyond the drift")}
    first = [row(name, 0.1, 0.02) for name in GROUNDS[:3]] + [row("Elder", 0.1, p, **drifting)]
    repeats = answer(
        Change,
        "again.economy.elder",
        **{"values": {"ground": "Elder"}, "effect": effect(0.1, 0.45)},
        **{"again": "b.economy.elder", "shares": (0.2, 0.3), **JUDGED},
    )
    view, found = brief_view([BEAT, AGAIN]), findings_of(*first, repeats)
    return beat_page(2, AGAIN, view, found, [chart_made("again.economy")], NO_CARE)


def again_line(p: float) -> str:
    """Under the page's line on how much of it the group had."""
    _, line = again_page(p).lines
    return line


def test_what_an_earlier_page_puts_into_words_is_referred_to_without_its_numbers():
    assert again_line(p=0.001) == "Economy at Elder, as you’ve heard, went up."


def test_a_row_that_the_earlier_page_leaves_to_its_table_is_told_in_full():
    line = again_line(p=0.04)
    assert (
        "you’ve heard" not in line
        and " rose from four and a half an over to four point nine five. " in line
    )
    assert "Allow for luck" in line and "t had been rising by " in line and "a step down" in line


def test_a_page_has_the_drift_of_the_row_that_it_repeats_in_its_care_too():
    made = again_page(p=0.04)
    assert made.dont_say[0].endswith(
        "There is a step at the date; what made it is not in the data."
    )
    assert [line for line in made.challenged if line.startswith("Elder: drift +2.0% a season")]


TWO: AnyBeat = KINDS["before_after"].model_validate(
    {"id": "b", "kind": "before_after", "measure": ["economy", "fours"]}
)
INNINGS: AnyBeat = KINDS["groups"].model_validate(
    {"id": "g", "kind": "groups", "measure": "economy", "between": {"innings": ["1", "2"]}}
)
CHARTS = [chart_made("b.fours", rows_left_out=3), chart_made("b.economy"), chart_made("g.economy")]


def page(beat: AnyBeat, *found: Finding, **more: Any) -> BeatPage:
    """The second of two pages, with the other beat's findings among them."""
    view = brief_view([TWO, INNINGS], **more)
    return beat_page(2, beat, view, findings_of(*found), CHARTS, NO_CARE)


def economy(**more: Any) -> Finding:
    return change("b.economy", **{**JUDGED, **more})


def fours(**more: Any) -> Finding:
    return change("b.fours", **{**JUDGED, "kind": "share", **more})


def both(**more: Any) -> list[Finding]:
    return [economy(**more), fours(**more)]


def groups(**more: Any) -> Finding:
    return answer(Groups, "g.economy", **{**JUDGED, "sides": ("1", "2"), **more})


def test_a_page_has_a_part_for_each_measure_with_its_own_chart_and_rows():
    made = page(TWO, *both(), groups())
    assert (made.id, made.position, made.count) == ("b", 2, 2)
    rates, shares = made.parts
    assert (rates.measure, rates.unit, rates.share) == ("economy", "runs an over", False)
    assert (shares.measure, shares.unit, shares.share) == ("fours", "per cent of balls", True)
    assert [part.chart.chart for part in made.parts] == ["b.economy", "b.fours"]
    assert (rates.chart.alt, rates.chart.hold) == ("Rows.", "8 s")
    assert (rates.left_out, shares.left_out) == ("", "3 more rows in the table.")
    assert [[row.id for row in part.rows] for part in made.parts] == [["b.economy"], ["b.fours"]]
    assert rates.sides == ["Before", "After"] and (rates.extra, rates.wide) == ("Could see", False)
    assert made.lines == [*rates.lines, *shares.lines] and len(made.lines) == 2


def test_sides_that_are_groups_are_named_after_them():
    (part,) = page(INNINGS, *both(), groups()).parts
    assert part.sides == ["First innings", "Second innings"]
    assert [row.id for row in part.rows] == ["g.economy"]


def test_a_beat_without_a_match_has_a_page_all_the_same():
    """No ball of it was selected: nothing is said, and no row stands in the table."""
    view, none = brief_view([TWO, INNINGS]), findings_of(groups())
    none.samples |= findings_of(*both()).samples
    made = beat_page(1, TWO, view, none, CHARTS, NO_CARE)
    assert made.lines == [] and [part.rows for part in made.parts] == [[], []]
    assert [part.sides for part in made.parts] == [["", ""], ["", ""]]


def test_a_heading_is_the_topic_s_or_else_what_the_beat_asks():
    named = TWO.model_copy(update={"title": "Who paid"})
    assert page(TWO, *both()).title == "Economy and fours, before and after"
    measures = {"economy": ECONOMY, "fours": FOURS}
    assert headings([named, INNINGS], measures, FORM, {})["b"] == "Who paid"
    words = topic([TWO.model_copy(update={"note": "Say it slowly."}), INNINGS])
    assert page(TWO, *both(), words=words).note == "Say it slowly."
    assert page(INNINGS, groups(), words=words).note is None


def test_if_challenged_has_the_sample_and_the_test_of_each_measure():
    made = page(TWO, *both(), groups()).challenged
    definition, test, other, _ = made
    assert definition.startswith("Economy is runs off the bowler")
    assert definition.endswith("20,000 balls in 100 matches.")
    assert test.startswith("All balls: +10.0%") and "p = 0.002 among 12" in test
    assert other.startswith("Fours is balls hit for four")


def test_a_page_prints_its_cautions_and_then_those_that_were_told_before():
    view = brief_view([TWO, INNINGS])
    care = Care(["Only 8 matches."], "Here: few matches, as said at the top.")
    made = beat_page(2, TWO, view, findings_of(*both()), CHARTS, care)
    assert (made.careful, made.again) == care and made.care == [*care.said, care.again]
    assert page(TWO, *both()).care == [NOTHING]
