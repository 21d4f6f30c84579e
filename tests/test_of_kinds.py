"""What each kind of beat says on pages, charts and cards beside the sentences of its findings."""

from __future__ import annotations

from typing import Any

import pytest

from pipeline.config.kinds import AnyBeat
from pipeline.contracts.finding import Finding, Mix, Rates
from pipeline.contracts.parts import Heterogeneity
from pipeline.wording import of_kinds
from pipeline.wording.dont_say import dont_say
from tests.seasons import season, timing, windows
from tests.word_makers import (
    BEAT,
    ECONOMY,
    EVENT,
    FORM,
    GAP,
    GROUPS,
    MIX,
    PHASES,
    PLAYERS,
    SHARE,
    SHARE_BEAT,
    TREND,
    TURN,
    beat,
    gap_between,
    groups_apart,
    moved,
    part,
    player,
    players_list,
    share_moved,
    turn,
)

SPIN = {"bowler_kind": "spin"}
WHOLE = moved(0.10, 0.03, values={}, cell="all", id="b.economy.all")
GAP_FOUND = gap_between(0.03, -0.07, -0.10, 0.03)


def group(name: str, before: float, after: float) -> Finding:
    """A group of a mix, with its shares of the balls."""
    values = {"bowler_kind": name}
    return moved(0.01, 0.1, "can't tell", values=values, shares=(before, after), id=f"b.e.{name}")


def title(of: AnyBeat, *mine: Finding, headlines: tuple[str, ...] = ()) -> str:
    return of_kinds.title(list(mine), of, ECONOMY, headlines, FORM, EVENT)


@pytest.mark.parametrize(
    ("of", "finding", "label", "sides"),
    [
        (BEAT, moved(0.1, 0.03), "Spin, overs 11–40", ("before", "after")),
        (BEAT, WHOLE, "All balls", ("before", "after")),
        (PHASES, moved(0.1, 0.03, values={"band": "1-10"}), "Overs 1–10", ("before", "after")),
        (GROUPS, groups_apart(0.1, 0.03, values=SPIN), "Spin", ("inland", "coast")),
        (GAP, GAP_FOUND, "Spin against pace", ("pace", "spin")),
        (GAP, moved(0.1, 0.03, values=SPIN), "Spin", ("before", "after")),
        (MIX, part(Mix, 0.1, 0.03), "Who did what", ("before", "after")),
        (MIX, part(Rates, 0.1, 0.03), "The rates themselves", ("before", "after")),
        (MIX, group("spin", 0.3, 0.4), "Spin", ("before", "after")),
        (PLAYERS, player(True), "A Quibble", ("before", "after")),
        (PLAYERS, WHOLE, "Everyone", ("before", "after")),
    ],
)
def test_names_of_a_row_and_of_its_sides(of, finding: Finding, label: str, sides):
    assert of_kinds.label(finding, of, FORM) == label
    assert of_kinds.sides(finding, of, FORM) == sides


def test_a_gap_by_another_cut_says_where():
    of = beat("gap", between={"bowler_kind": ["pace", "spin"]}, by=["phase"])
    found = gap_between(0.03, -0.07, -0.10, 0.03, values={"phase": "death"})
    assert of_kinds.label(found, of, FORM) == "Spin against pace, overs 41–50"
    assert of_kinds.measured(found, of, ECONOMY, FORM) == "spin’s economy at the death"


@pytest.mark.parametrize(
    ("of", "finding", "name"),
    [
        (BEAT, moved(0.1, 0.03), "Economy, spin, overs 11–40"),
        (BEAT, WHOLE, "Economy"),
        (beat("before_after", where=SPIN), WHOLE, "Economy, spin"),
        (beat("trend", where={"overs": "41-50", **SPIN}), WHOLE, "Economy, spin, overs 41–50"),
        (GAP, GAP_FOUND, "Economy, spin against pace"),
        (MIX, part(Mix, 0.1, 0.03), "Economy, who did what, overs 11–40"),
        (MIX, WHOLE, "Economy, overs 11–40"),
        (MIX, group("spin", 0.3, 0.4), "Economy, spin, overs 11–40"),
        (PLAYERS, player(True), "Economy, A Quibble"),
        (PLAYERS, WHOLE, "Economy"),
        (GROUPS, groups_apart(0.1, 0.03), "Economy"),
        (TURN, turn(), "Economy"),
    ],
)
def test_a_headlines_name(of, finding: Finding, name: str):
    assert of_kinds.headline_name(finding, of, ECONOMY, FORM) == name


@pytest.mark.parametrize(
    ("of", "finding", "number", "fact", "sides", "detail"),
    [
        (
            *(BEAT, moved(-0.10, 0.03), "−10.0%", "change"),
            "before 5.00, after 4.50 runs an over",
            "−0.50 runs an over; 95% interval −13.0 to −7.0 per cent",
        ),
        (
            *(BEAT, WHOLE, "+10.0%", "change"),
            "before 5.00, after 5.50 runs an over",
            "+0.50 runs an over; 95% interval +7.0 to +13.0 per cent",
        ),
        (
            *(GROUPS, groups_apart(-0.06, 0.02), "−6.0%", "change"),
            "inland 5.00, coast 4.70 runs an over",
            "−0.30 runs an over; 95% interval −8.0 to −4.0 per cent",
        ),
        (
            *(GAP, GAP_FOUND, "−10.0%", "change"),
            "pace +3.0%, spin −7.0%",
            "−0.50 runs an over; 95% interval −13.0 to −7.0 per cent",
        ),
        (
            *(TURN, turn(), "2016 to 2017", "date"),
            "where the data put the break, asked blind",
            "95%: from after the 2015 season to after the 2018 season; the event is inside",
        ),
        (
            *(TURN, turn(event=None), "2016 to 2017", "date"),
            "where the data put the break, asked blind",
            "95%: from after the 2015 season to after the 2018 season",
        ),
        (
            *(TURN, turn(low="2016", high="2016", event=None), "2016 to 2017", "date"),
            "where the data put the break, asked blind",
            "after the 2016 season; the 95% set holds no other",
        ),
        (
            *(TURN, turn(every="quarter", low="2016 Q3", high="2017 Q2", event=None)),
            *("2016 to 2017", "date", "where the data put the break, asked blind"),
            "95%: from after 2016 Q3 to after 2017 Q2",
        ),
    ],
)
def test_a_card_has_the_number_that_its_kind_tells(of, finding, number, fact, sides, detail):
    assert of_kinds.card(finding, of, ECONOMY, FORM) == (number, fact, sides, detail, "")


def test_a_card_of_a_share_is_in_points():
    assert of_kinds.card(share_moved(4.0, 0.9), SHARE_BEAT, SHARE, FORM) == (
        *("+4.0 pts", "difference", "before 25.0, after 29.0 per cent of balls"),
        "95% interval +3.1 to +4.9 points",
        "",
    )


@pytest.mark.parametrize(
    ("of", "finding", "heading", "cell"),
    [
        (BEAT, moved(0.1, 0.03), "Could see", "5.0%"),
        (SHARE_BEAT, share_moved(4.0, 0.9), "Could see", "0.1 pts"),
        (MIX, group("spin", 0.36, 0.444), "Share of balls", "36.0% to 44.4%"),
        (MIX, part(Mix, 0.1, 0.03), "Share of balls", "–"),
        (PLAYERS, player(True), "Luck allowed for", "−17% (−28 to −5), moved, apart"),
        (PLAYERS, player(False), "Luck allowed for", "−17% (−28 to −5), moved"),
        (PLAYERS, player(True, moved_too=False), "Luck allowed for", "−17% (−28 to −5), apart"),
        (PLAYERS, player(False, moved_too=False), "Luck allowed for", "−17% (−28 to −5)"),
        (PLAYERS, WHOLE, "Luck allowed for", "–"),
    ],
)
def test_the_column_beside_the_interval(of, finding: Finding, heading: str, cell: str):
    assert of_kinds.extra_heading(of) == heading
    assert of_kinds.extra(finding, of) == cell
    assert of_kinds.extra_is_wide(of) is (heading != "Could see")


@pytest.mark.parametrize(
    ("of", "added"),
    [
        (BEAT, " · 2012–2016 against 2017"),
        (PLAYERS, " · 2012–2016 against 2017"),
        (GAP, " · 2012–2016 against 2017"),
        (GROUPS, ""),
        (TREND, ", by season"),
        (TURN, ", by season"),
        (beat("turning_point", every="quarter"), ", by quarter"),
    ],
)
def test_what_a_subtitle_adds(of, added: str):
    years = [season(year) for year in range(2012, 2018)]
    chosen = timing(years, windows(["2012", "2014", "2016"], ["2017"]))
    assert of_kinds.compared(of, chosen) == added
    unseen = "" if "against" in added else added
    assert of_kinds.compared(of, chosen, blind=True) == unseen
    assert of_kinds.compared(of, timing(years, None)) == unseen


@pytest.mark.parametrize(
    ("of", "finding", "words"),
    [
        (BEAT, WHOLE, "Economy rose by about ten per cent"),
        (BEAT, moved(0.01, 0.02, "held", values={}), "Economy held"),
        (BEAT, moved(0.02, 0.1, "can't tell", values={}), "Economy: the data can’t tell"),
        (BEAT, moved(0, 0, "can't tell", refused="no_balls"), "too little to say"),
        (BEAT, moved(0, 0, "can't tell", refused="no_spread"), "overs: no figure"),
        (TURN, turn("can't tell", refused="no_scatter"), "Economy: no figure"),
        (MIX, part(Mix, 0, 0, "can't tell", refused="mix_alike"), "overs: no figure"),
        (GROUPS, groups_apart(0.06, 0.02), "Economy is about six per cent higher at coast grounds"),
        (GROUPS, groups_apart(0.01, 0.02, "held"), "Economy is much the same in both"),
        (GAP, GAP_FOUND, "Set against pace’s, spin’s economy went down about ten per cent"),
        (
            MIX,
            part(Mix, -0.06, 0.01),
            "A change in who was bowling took economy in the middle overs",
        ),
        (MIX, part(Rates, 0.1, 0.03), "With the same mix, economy in the middle overs rose by"),
        (TURN, turn(), "Asked blind, the data put the break between 2016 and 2017"),
        (TURN, turn("can't tell"), "Economy: the data can’t tell"),
        (MIX, part(Rates, 0.01, 0.02, "held"), "With the same mix, economy in the middle overs he"),
        (MIX, part(Rates, 0.01, 0.1, "can't tell"), "With the same mix, economy in the middle o"),
        (MIX, part(Mix, 0.01, 0.1, "can't tell"), "What a change in who was bowling did to"),
        (PLAYERS, player(True), "One name, and it moved by more than luck"),
        (PLAYERS, player(True, moved_too=False), "One name, and nobody to hold it against"),
        (PLAYERS, WHOLE, "Nobody has enough in both windows"),
    ],
)
def test_a_title_says_what_was_found(of, finding: Finding, words: str):
    made = title(of, finding)
    assert words in made and not made.endswith(".")


def test_a_title_without_a_finding_is_the_beats_own():
    assert title(TREND) == "Economy"
    assert title(beat("trend", title="The long view")) == "The long view"


def test_a_title_is_led_by_its_headline_then_by_the_surest_change_then_by_the_whole():
    spin = moved(-0.10, 0.03, id="b.economy.spin", cell="spin", values=SPIN)
    surer = moved(-0.20, 0.03, id="b.economy.pace", cell="pace", values={"bowler_kind": "pace"})
    surer.told.p = 0.001
    held = moved(0.01, 0.02, "held", id="b.economy.all", cell="all", values={})
    assert title(BEAT, held, spin, surer).startswith("Pace’s economy fell")
    assert title(BEAT, held, spin, surer, headlines=("b.economy.spin",)).startswith("Spin’s")
    still = moved(0.01, 0.02, "held", id="b.economy.spin", cell="spin", values=SPIN)
    assert title(BEAT, still, held) == "Economy held"


def test_a_part_of_a_mix_leads_only_where_it_is_the_headline():
    whole = moved(0.02, 0.1, "can't tell", values={}, cell="all", id="b.economy.all")
    rates = part(Rates, 0.1, 0.03, id="b.economy.rates", cell="rates")
    assert title(MIX, whole, rates) == "Economy in the middle overs: the data can’t tell"
    assert title(MIX, whole, rates, headlines=(rates.id,)).startswith("With the same mix")


@pytest.mark.parametrize(
    ("of", "finding", "change", "before"),
    [
        (
            *(BEAT, WHOLE, "the change in economy"),
            "economy before the long rope",
        ),
        (
            *(GROUPS, groups_apart(0.1, 0.03), "the difference in economy at coast grounds"),
            "economy at inland grounds",
        ),
        (
            *(GAP, GAP_FOUND, "the change in spin’s economy, set against pace’s,"),
            "the change in pace’s economy",
        ),
        (
            *(MIX, part(Mix, 0.1, 0.03)),
            "what a change in who was bowling did to economy in the middle overs",
            "economy in the middle overs before the long rope",
        ),
        (
            *(MIX, part(Rates, 0.1, 0.03)),
            "the change in economy in the middle overs, with the same mix,",
            "economy in the middle overs with the same mix before the long rope",
        ),
    ],
)
def test_a_number_has_a_name(of, finding: Finding, change: str, before: str):
    assert of_kinds.change_named(finding, of, ECONOMY, FORM) == change
    assert of_kinds.side_named(finding, 0, of, ECONOMY, FORM, EVENT) == before


def still(count: int, **more: Any) -> list[Any]:
    """So many who neither moved nor stand clear."""
    return [player(False, f"P {n}", moved_too=False, **more) for n in range(count)]


def test_a_list_of_players_is_no_ranking():
    assert opening(PLAYERS, still(12), 12) == (
        "We have twelve bowlers with three hundred balls or more, both before and after. Allow "
        "for luck, and we can’t say that any one of them moved. No name stands clear of the rest."
    )
    assert under_list(PLAYERS, still(12), 12) == (
        "Nine more played in both windows, with fewer. Only one of them is a left-arm quick."
    )
    assert opening(PLAYERS, [WHOLE], 0) == (
        "Nobody had three hundred balls in both windows, so there are no names here."
    )
    assert "One name, and nobody to hold it against." in opening(PLAYERS, still(1), 1)


def test_who_moved_and_who_stands_clear_are_two_claims():
    both = [player(True, f"Q {n}") for n in range(2)]
    said = opening(PLAYERS, [WHOLE, *both, *still(12)], 14)
    assert (
        "With luck allowed for, two of the fourteen moved, each of them down: Q 0 and Q 1. " in said
    )
    assert "Two stand clear of the rest: Q 0 and Q 1." in said
    fell = [player(False, f"P {n}") for n in range(11)]
    stayed = player(True, "Q Stays", moved_too=False)
    said = opening(PLAYERS, [*fell, stayed], 12)
    assert "eleven of the twelve moved, each of them down. " in said
    assert "One stands clear of the rest: Q Stays, whose own number can’t be told from no" in said
    all_fell = opening(PLAYERS, fell, 11)
    assert "all eleven moved, each of them down. But no name stands clear" in all_fell


@pytest.mark.parametrize(
    ("p", "kept", "words"),
    [
        (0.4, 0.1, "What separates them is no more than luck would make."),
        (0.004, 0.502, "About half of the spread among them is more than luck, but we can’t say"),
        (
            0.004,
            0.23,
            "About twenty-three per cent of the spread among them is more than luck, but we",
        ),
        (0.2, 0.6, "Whether more than luck separates them can’t be called."),
    ],
)
def test_luck_is_named_only_where_the_test_and_the_kept_share_both_say_so(p, kept, words: str):
    among = Heterogeneity(q=20.0, df=11, p=p, tau=0.1, kept=kept)
    names = still(12, among=among)
    assert (words in opening(PLAYERS, names, 12)) is (p > 0.05 and kept < 0.5)
    assert (words in under_list(PLAYERS, names, 12)) is not (p > 0.05 and kept < 0.5)
    warned = dont_say(PLAYERS, names, None, FORM)
    luck = "“The biggest loser was …” No one stands clear of the rest: the ends of this list are mo"
    assert any(line.startswith(luck) for line in warned) is (p > 0.05 and kept < 0.5)


def test_who_hardly_features_in_a_list():
    batters = beat("players", role="batter", at_least="300 balls")
    names: list[Any] = [player(False, f"P {n}") for n in range(12)]
    for left, words in ((0, "There is no left-hander in this list."), (2, "Only two of them are")):
        hands = {"left": left, "right": 12 - left}
        assert words in under_list(batters, names, 12, hands=hands)
    three, four = ({"left": left, "right": 12 - left} for left in (3, 4))
    assert "Only three of them are left-handers." in under_list(batters, names, 12, hands=three)
    assert "hander" not in under_list(batters, names, 12, hands=four)
    assert "hander" not in opening(batters, names, 12, hands=three)
    few = {"left": 0, "right": 3}
    assert "hander" not in under_list(batters, names[:3], 3, hands=few)
    assert "hander" in under_list(batters, names[:4], 4, hands={"left": 0, "right": 4})


def test_a_threshold_that_leaves_nobody_out_says_so():
    nobody = under_list(PLAYERS, still(12), 12, left_out=0)
    assert nobody.startswith("Nobody played in both windows with fewer.")


def test_a_title_counts_the_names():
    assert title(PLAYERS, *still(12)) == "Twelve names, and no one stands clear of the rest"
    two = [player(False, f"Q {n}") for n in range(2)]
    assert title(PLAYERS, WHOLE, *two, *still(12)) == (
        "Two of fourteen moved by more than luck; no one stands clear of the rest"
    )
    stayed = player(True, "Q Stays", moved_too=False)
    assert title(PLAYERS, stayed, *two) == (
        "Two of three moved by more than luck; one stands clear of the rest"
    )


def test_only_a_turning_point_has_a_date():
    with pytest.raises(ValueError, match="no date"):
        of_kinds.card(WHOLE, TURN, ECONOMY, FORM)


def opening(of: AnyBeat, own: list[Any], kept: int, **more: Any) -> str:
    return " ".join(of_kinds.opening(own, of, FORM, players_list(kept, **more)))


def under_list(of: AnyBeat, own: list[Any], kept: int, **more: Any) -> str:
    return " ".join(of_kinds.of_list(own, of, players_list(kept, **more)))


def test_a_mix_says_who_bowled_how_much():
    """Of the group whose share moved most."""
    groups = [group("pace", 0.6, 0.58), group("spin", 0.36, 0.44)]
    of_balls = "of the balls in the middle overs"
    assert of_kinds.opening(groups, MIX, FORM, None) == [
        f"Spin bowled thirty-six per cent {of_balls} before, and forty-four after."
    ]
    assert of_kinds.opening([group("spin", 0.335, 0.5)], MIX, FORM, None) == [
        f"Spin bowled about a third {of_balls} before, and half after."
    ]
    (still,) = of_kinds.opening([group("spin", 0.361, 0.3608)], MIX, FORM, None)
    assert still == f"Spin bowled thirty-six point one per cent {of_balls}, before and after."
    (shown,) = of_kinds.opening([group("spin", 0.361, 0.359)], MIX, FORM, None)
    assert shown.endswith(
        f"thirty-six point one per cent {of_balls} before, and thirty-five point nine after."
    )
    coast = beat("mix", where={"region": ["coast", "river"]}, by=["bowler_kind"])
    (line,) = of_kinds.opening(groups, coast, FORM, None)
    assert "of the balls at coast and river grounds before" in line
    hands = beat("mix", where={"overs": "41-50"}, by=["batter_hand"])
    left = moved(0.01, 0.1, values={"batter_hand": "left"}, shares=(0.2, 0.3))
    assert of_kinds.opening([left], hands, FORM, None) == [
        "Left-handers faced twenty per cent of the balls in overs 41 to 50 before, and thirty "
        "after."
    ]


def test_other_kinds_say_nothing_before_their_findings():
    assert of_kinds.opening([WHOLE], BEAT, FORM, None) == []
    assert of_kinds.opening([], PLAYERS, FORM, players_list(0)) == []


@pytest.mark.parametrize(
    ("of", "open_one", "line"),
    [
        (BEAT, moved(0.02, 0.1, "can't tell"), "before 5.00, after 5.10 runs an over."),
        (
            TURN,
            turn("can't tell"),
            "Does any season stand out as the turning point in economy? Not that we can tell: even "
            "the largest shift is no bigger than luck often makes.",
        ),
        (
            MIX,
            part(Mix, -0.03, 0.05, "can't tell"),
            "What a change in who was bowling did to economy in the middle overs: −3.0%, 95% "
            "interval −8.0 to +2.0 per cent.",
        ),
    ],
)
def test_what_is_open_is_told_by_what_its_kind_found(of: AnyBeat, open_one: Finding, line: str):
    """A break has no two values, and the ends of a mix's part were never bowled."""
    assert of_kinds.found(open_one, of, ECONOMY, FORM, EVENT).endswith(line)
