"""What was once heard of a finding that its numbers do not say: an example of each."""

from __future__ import annotations

import msgspec

from pipeline.brief.facts import facts_of
from pipeline.brief.table_rows import table_row
from pipeline.contracts.finding import Mix
from pipeline.contracts.over_time import EventPlace
from pipeline.wording import of_kinds
from pipeline.wording.expected import found_of
from pipeline.wording.fact_forms import way_of
from pipeline.wording.linked import linked
from tests.brief_makers import brief_view, findings_of
from tests.fact_makers import fact
from tests.finding_makers import side, slope, span
from tests.word_makers import (
    BEAT,
    ECONOMY,
    EVENT,
    FORM,
    GAP,
    GROUPS,
    MIX,
    TURN,
    beside,
    gap_between,
    groups_apart,
    moved,
    part,
    said,
    turn,
)

DOWN_FROM_MORE = span(0.4, 0.2)  # runs: from another level, the smaller change is the larger one


def gap_of_two_levels(**test):
    """Spin a tenth lower against pace, and further up than it in runs an over."""
    found = gap_between(0.3, 0.17, -0.1, 0.03, drift=beside("beyond the drift", **test))
    effect = msgspec.structs.replace(found.told, difference=DOWN_FROM_MORE)
    return msgspec.structs.replace(found, effect=effect)


def test_a_gap_goes_the_way_that_is_told_of_it_not_the_way_of_its_units():
    down, up = gap_of_two_levels(step=-0.13), gap_of_two_levels(step=0.13)
    assert "points the other way" in said(up, GAP) and "points" not in said(down, GAP)
    assert found_of("falls", down) == "The data agree"
    assert found_of("rises", down) == "The data say the other way"
    assert not linked(down, down) and not linked(down, gap_between(0.3, 0.2, -0.1, 0.03))
    short = of_kinds.breath(down, GAP, ECONOMY, FORM, EVENT)
    assert short.endswith("went down about ten per cent, and that is a step beyond its drift.")


def test_a_gap_that_fell_against_its_drift_ended_lower():
    found = gap_of_two_levels(step=0.01, slope=slope(0.01))
    drift = beside("in line with the drift", step=0.01, slope=slope(0.01))
    text = said(msgspec.structs.replace(found, drift=drift), GAP)
    assert "yet the later number is lower" in text


def test_a_part_of_a_mix_is_held_and_changed_on_the_scale_of_its_verdict():
    """Its interval in units may hold none where that in per cent does not."""
    changed = part(Mix, 0.06, 0.02)
    wide = msgspec.structs.replace(changed.told, difference=span(0.3, 0.4))
    text = said(msgspec.structs.replace(changed, effect=wide), MIX)
    assert "up by itself: about" in text and "under" not in text
    lost = part(Mix, -0.06, 0.07, "can't tell", because="lost_among_many")
    assert "took" not in said(lost, MIX)


def test_a_break_lost_among_many_is_not_one_that_luck_makes_often():
    lost = msgspec.structs.replace(turn("can't tell"), because="lost_among_many", family_size=40)
    assert said(lost, TURN) == (
        "Asked blind for a break in economy, the data lean to one between 2016 and 2017. If that "
        "were all we’d tested, we’d call it a break. We tested forty numbers, which raises the "
        "bar, so we can’t call it."
    )


def test_a_break_of_one_season_is_no_more_sure_than_its_interval():
    text = said(turn(low="2016", high="2016", event=EventPlace(inside=False, rank=3)), TURN)
    assert "none of the others is left in the running. The long rope came outside that, in" in text


def test_of_two_groups_nothing_goes_up_or_moves():
    """Neither of them came first."""
    higher, lower = (groups_apart(change, 0.02, id="b.economy") for change in (0.06, -0.06))
    inside = groups_apart(0.02, 0.01, "held", because="moved_within_margin")
    assert found_of("higher", inside) == "They are apart that way, inside the margin"
    assert linked(higher, lower) == "Here it is the other way."
    view = brief_view([GROUPS])
    said_of = {fact.id: fact.spoken for fact in facts_of(view, findings_of(lower))}
    assert said_of["b.economy.change"] == "about six per cent lower"
    assert said_of["b.economy.difference"] == "nought point three runs an over lower"


def test_a_correction_hears_which_of_two_groups_was_higher():
    """The word that says which way is none of the number that is looked for."""
    found = fact("b.economy.change", "−6.0%", spoken="about six per cent lower")
    assert way_of(found) == "lower"


def test_a_change_that_can_be_told_is_seen_in_its_values():
    """Sixes an innings from 1.47 to 1.54 are one and a half twice, to the tenth that is shown."""
    few = ECONOMY.model_copy(update={"decimals": 1})
    found = msgspec.structs.replace(moved(0.05, 0.02, values={}), a=side(1.47), b=side(1.54))
    assert "fell" not in said(found, measure=few)
    assert "from one point four seven an over to one point five four" in said(found, measure=few)
    row = table_row(found, BEAT, few, FORM)
    assert (row.a, row.b) == ("1.47", "1.54")
    held = msgspec.structs.replace(found, verdict="held", because="inside_margin")
    assert "held: one and a half an over before and after" in said(held, measure=few)
