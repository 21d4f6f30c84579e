"""Numbers as shown and said, and sentences that never say more than their finding."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.brief.background import background, caution, cited
from pipeline.brief.beats import _lines
from pipeline.brief.runsheet import opening, run_sheet
from pipeline.errors import UserError
from pipeline.wording import cricket, notes, numbers, phrases, script
from pipeline.wording.answer import answer, expected_found, more_matches
from pipeline.wording.dont_say import dont_say
from pipeline.wording.kinds.mix import share_said
from pipeline.wording.kinds.players import list_said
from pipeline.wording.statement import statement
from pipeline.wording.subject import subject

FORM = {
    "overs": 50,
    "phases": {
        "middle": {"label": "overs 11–40", "overs": [11, 40], "said": "in the middle overs"},
        "death": {"label": "overs 41–50", "overs": [41, 50], "said": "at the death"},
    },
}
EVENT = {"name": "the long rope", "date": "2017-03-01"}
BEAT = {"id": "b", "kind": "before_after", "where": {}}
GROUPS = {"id": "g", "kind": "groups", "where": {}, "between": {"region": ["inland", "coast"]}}
GAP = {"id": "p", "kind": "gap", "where": {}, "between": {"bowler_kind": ["pace", "spin"]}}
MIX = {"id": "m", "kind": "mix", "where": {"phase": ["middle"]}, "by": ["bowler_kind"]}
TURN = {"id": "t", "kind": "turning_point", "where": {}, "every": "season"}
PLAYERS = {"id": "n", "kind": "players", "where": {}, "role": "bowler"}
SHARE_BEAT = {"id": "s", "kind": "share", "where": {}, "of": {"bowler_arm": ["left"]}}
ECONOMY = {"label": "economy", "unit": "runs an over", "spoken": "an over", "decimals": 2}
ECONOMY |= {"kind": "rate", "counted": None}
SHARE = {"label": "left-arm bowling’s share of the balls", "unit": "per cent of balls"}
SHARE |= {"spoken": "per cent", "decimals": 1, "kind": "share", "counted": None}
CELL = {"bowler_kind": "spin", "phase": "middle"}


def finding(change: float, half: float, verdict: str, **more) -> dict:
    a, b = 5.0, 5.0 * (1 + change)
    return {
        "id": "b.economy.spin-middle",
        "about": "change",
        "values": CELL,
        "sides": ["before", "after"],
        "a": {"value": a, "low": a - 0.1, "high": a + 0.1, "matches": 40},
        "b": {"value": b, "low": b - 0.1, "high": b + 0.1, "matches": 40},
        "difference": 5.0 * change,
        "difference_low": 5.0 * (change - half),
        "difference_high": 5.0 * (change + half),
        "change": change,
        "change_low": change - half,
        "change_high": change + half,
        "detectable_change": 0.05,
        "kind": "rate",
        "verdict": verdict,
        "because": "",
        "family_size": 40,
        "refused": None,
        "p": 0.01,
        "drift": None,
        "control": None,
        "felt": None,
        "shrunk": None,
        "turn": None,
        "shares": None,
        "notes": [],
        "margin": {"size": 5.0, "unit": "percent"},
        **more,
    }


def share(points: float, half: float, verdict: str, **more) -> dict:
    ends = {"difference": points, "difference_low": points - half, "difference_high": points + half}
    sides = {
        "a": {"value": 25.0, "low": 24.0, "high": 26.0, "matches": 40},
        "b": {"value": 25.0 + points, "low": 24.0 + points, "high": 26.0 + points, "matches": 40},
    }
    margin = {"size": 0.6, "unit": "points"}
    base = finding(points / 25, half / 25, verdict, kind="share", values={}, margin=margin)
    return {**base, **ends, **sides, **more}


def drift(verdict: str, **more) -> dict:
    base = {"per_season": 0.01, "expected": 0.05, "step": -0.13, "because": None, "p": 0.01}
    return {**base, "step_low": -0.17, "step_high": -0.09, "verdict": verdict, **more}


def felt(value: float, half: float, per: str, times: int, of: str) -> dict:
    return {"value": value, "low": value - half, "high": value + half, "per": per} | {
        **{"times": times, "of": of, "divided": 1}
    }


def gap(change: float, half: float, verdict: str, one: float, other: float, **more) -> dict:
    def side(size: float) -> dict:
        ends = {"change_low": size - 0.03, "change_high": size + 0.03}
        return {"value": 5 * size, "low": 0, "high": 1, "change": size, **ends, "matches": 40}

    return finding(
        change,
        half,
        verdict,
        about="gap",
        values={},
        sides=["pace", "spin"],
        a=side(one),
        b=side(other),
        **more,
    )


def turn(**more) -> dict:
    base = {"last": "2016", "next": "2017", "low": "2015", "high": "2018", "every": "season"}
    return {**base, "event": {"inside": True, "rank": 1}, "second": None, **more}


def player(apart: bool) -> dict:
    drawn = {"change": -0.17, "low": -0.28, "high": -0.05, "apart": apart, "group": "spin"}
    return finding(
        -0.2, 0.1, "changed", about="player", values={"bowler": "A Quibble"}, shrunk=drawn
    )


# Every outcome of every kind; what is said of each stands in outcomes.txt.
OUTCOMES = [
    ("rise", finding(0.10, 0.03, "changed"), BEAT, ECONOMY),
    (
        "fall",
        finding(-0.10, 0.03, "changed", felt=felt(-5.0, 1.4, "spell", 10, "overs")),
        BEAT,
        ECONOMY,
    ),
    (
        "fall, beyond the drift",
        finding(-0.10, 0.03, "changed", drift=drift("beyond the drift")),
        BEAT,
        ECONOMY,
    ),
    (
        "rise, in line with the drift",
        finding(0.08, 0.03, "changed", drift=drift("in line with the drift")),
        BEAT,
        ECONOMY,
    ),
    (
        "fall, drift the other way and no step",
        finding(-0.08, 0.03, "changed", drift=drift("in line with the drift")),
        BEAT,
        ECONOMY,
    ),
    (
        "rise, drift not testable",
        finding(
            0.10,
            0.03,
            "changed",
            drift=drift("not testable", because="few_seasons_before", seasons_before=5),
        ),
        BEAT,
        ECONOMY,
    ),
    (
        "fall, beyond the control",
        finding(
            -0.10,
            0.03,
            "changed",
            control={
                "name": "the early overs",
                "verdict": "beyond the control",
                "change_low": -0.14,
                "change_high": -0.06,
            },
        ),
        BEAT,
        ECONOMY,
    ),
    (
        "fall, in line with the control",
        finding(
            -0.10,
            0.03,
            "changed",
            control={
                "name": "the early overs",
                "verdict": "in line with the control",
                "change_low": -0.08,
                "change_high": 0.02,
            },
        ),
        BEAT,
        ECONOMY,
    ),
    ("held", finding(0.01, 0.02, "held"), BEAT, ECONOMY),
    ("held to the digit", finding(0.0004, 0.02, "held"), BEAT, ECONOMY),
    ("can't tell", finding(0.02, 0.10, "can't tell"), BEAT, ECONOMY),
    (
        "can't tell, few matches",
        finding(0.02, 0.10, "can't tell", notes=[{"code": "few_matches", "matches": 16}]),
        BEAT,
        ECONOMY,
    ),
    (
        "lost among many",
        finding(0.06, 0.05, "can't tell", because="lost_among_many"),
        BEAT,
        ECONOMY,
    ),
    ("refused", finding(0.1, 0.1, "can't tell", refused="none_counted"), BEAT, ECONOMY),
    (
        "refused, three matches",
        finding(0.1, 0.1, "can't tell", refused="few_matches", a={"matches": 3}),
        BEAT,
        ECONOMY,
    ),
    (
        "share up, beyond the drift",
        share(
            4.0,
            0.9,
            "changed",
            felt=felt(12.0, 2.7, "innings", 300, "balls"),
            drift=drift("beyond the drift", step=0.16),
        ),
        SHARE_BEAT,
        SHARE,
    ),
    ("share held", share(0.1, 0.3, "held"), SHARE_BEAT, SHARE),
    ("share, can't tell", share(1.0, 1.4, "can't tell"), SHARE_BEAT, SHARE),
    (
        "groups apart",
        finding(
            -0.06,
            0.02,
            "changed",
            about="groups",
            sides=["inland", "coast"],
            values={"bowler_kind": "pace"},
        ),
        GROUPS,
        ECONOMY,
    ),
    (
        "groups alike",
        finding(0.004, 0.02, "held", about="groups", sides=["inland", "coast"], values={}),
        GROUPS,
        ECONOMY,
    ),
    (
        "groups, can't tell",
        finding(0.02, 0.1, "can't tell", about="groups", sides=["inland", "coast"], values={}),
        GROUPS,
        ECONOMY,
    ),
    (
        "a gap, beyond the drift",
        gap(
            -0.10, 0.03, "changed", 0.03, -0.07, drift=drift("beyond the drift", per_season=-0.004)
        ),
        GAP,
        ECONOMY,
    ),
    ("no gap", gap(0.06, 0.12, "can't tell", 0.03, 0.09), GAP, ECONOMY),
    ("moved together", gap(0.01, 0.02, "held", 0.05, 0.06), GAP, ECONOMY),
    ("a mix that matters", finding(-0.06, 0.01, "changed", about="mix", values={}), MIX, ECONOMY),
    ("a mix that does not", finding(-0.01, 0.01, "held", about="mix", values={}), MIX, ECONOMY),
    (
        "a mix that can't be called",
        finding(-0.03, 0.05, "can't tell", about="mix", values={}),
        MIX,
        ECONOMY,
    ),
    ("rates that moved", finding(0.10, 0.03, "changed", about="rates", values={}), MIX, ECONOMY),
    ("rates that held", finding(0.01, 0.02, "held", about="rates", values={}), MIX, ECONOMY),
    (
        "rates that can't be called",
        finding(0.02, 0.1, "can't tell", about="rates", values={}),
        MIX,
        ECONOMY,
    ),
    (
        "a turn that fits",
        finding(-0.1, 0.03, "changed", about="turn", values={}, turn=turn()),
        TURN,
        ECONOMY,
    ),
    (
        "a turn to the season",
        finding(-0.1, 0.03, "changed", about="turn", values={}, turn=turn(low="2016", high="2016")),
        TURN,
        ECONOMY,
    ),
    (
        "a turn elsewhere",
        finding(
            -0.1,
            0.03,
            "changed",
            about="turn",
            values={},
            turn=turn(
                last="2012",
                next="2013",
                low="2011",
                high="2013",
                event={"inside": False, "rank": 6},
                second={"last": "2018", "next": "2019"},
            ),
        ),
        TURN,
        ECONOMY,
    ),
    (
        "no turn",
        finding(0.02, 0.1, "can't tell", about="turn", values={}, turn=turn()),
        TURN,
        ECONOMY,
    ),
    ("a player told apart", player(True), PLAYERS, ECONOMY),
    ("a player not told apart", player(False), PLAYERS, ECONOMY),
]


def said_of() -> dict[str, str]:
    """The sentences of each outcome, by its name."""
    blocks = (Path(__file__).parent / "outcomes.txt").read_text("utf-8").strip().split("\n\n")[1:]
    named = (block.partition("\n") for block in blocks)
    return {name: " ".join(words.split()) for name, _, words in named}


@pytest.mark.parametrize("row", OUTCOMES, ids=[row[0] for row in OUTCOMES])
def test_each_outcome_has_its_sentences(row: tuple):
    name, found, beat, measure = row
    made = " ".join(statement(found, beat, measure, FORM, EVENT))
    assert made == said_of()[name]
    assert made == " ".join(statement(found, beat, measure, FORM, EVENT))  # the same words again


def test_no_outcome_is_left_without_its_sentences():
    assert list(said_of()) == [row[0] for row in OUTCOMES] and len(OUTCOMES) >= 35


UNITS = "nought one two three four five six seven eight nine ten eleven twelve hundred thousand"
TENS = "twenty thirty forty fifty sixty seventy eighty ninety"
WORD = "|".join([*UNITS.split(), r"\w+teen", *TENS.split(), "half", "third", "thirds", "point"])
NUMBER = re.compile(rf"\b(?:{WORD})(?:[ -](?:and )?(?:a )?(?:{WORD}))*\b", re.IGNORECASE)
# Words that are no numbers, and counts that belong to a phrase.
ASIDE = re.compile(
    r" of a point| points\b|a spell of ten overs|one of forty looks|\bone (?:side|moved|this)|"
    r"than one",
    re.IGNORECASE,
)


@pytest.mark.parametrize("row", OUTCOMES, ids=[row[0] for row in OUTCOMES])
def test_at_most_two_numbers_a_sentence(row: tuple):
    """The overs of a spell, the looks of a family and a 'one' that is a pronoun aside."""
    for sentence in statement(row[1], row[2], row[3], FORM, EVENT):
        for part in re.split(r"(?<=[.:;]) ", sentence):
            assert len(NUMBER.findall(ASIDE.sub("", part))) <= 2, part


BANNED = (
    "because",
    "significant",
    "likely",
    "probably",
    "proves",
    "no effect",
    "no difference",
    "exactly",
)


@pytest.mark.parametrize("row", OUTCOMES, ids=[row[0] for row in OUTCOMES])
def test_no_line_gives_a_cause_or_a_likelihood(row: tuple):
    made = " ".join(statement(row[1], row[2], row[3], FORM, EVENT)).lower()
    assert not [word for word in BANNED if re.search(rf"\b{word}\b", made)]
    assert row[1]["kind"] != "share" or ("per cent up" not in made and "per cent down" not in made)


@given(
    change=st.floats(-0.6, 1.5),
    half=st.floats(0.001, 0.8),
    verdict=st.sampled_from(["changed", "held", "can't tell"]),
)
def test_direction_words_agree_with_signs(change: float, half: float, verdict: str):
    low, high = change - half, change + half
    made = " ".join(statement(finding(change, half, verdict), BEAT, ECONOMY, FORM))
    assert "  " not in made and "nan" not in made.split()
    if verdict == "changed" and (low > 0.01 or high < -0.01):
        assert made.rstrip(".").endswith("up" if change > 0 else "down")
    assert ("more than luck" in made) == (verdict == "changed")


@given(value=st.floats(0.01, 400), half=st.floats(0.001, 50))
def test_nearness_is_true_of_the_exact_value(value: float, half: float):
    said = phrases.size(value, half, 1, "runs")
    decimals = numbers.bearable(half, 1)
    rounded = float(numbers.rounded(value, decimals))
    if said.startswith("nearly"):
        assert value < rounded
    elif said.startswith("just over"):
        assert value > rounded
    elif said.startswith("about"):
        assert abs(value - rounded) <= 0.21 * 10.0**-decimals
    else:
        assert said.startswith("less than") and value < 10.0**-decimals
    assert 10.0**-decimals <= max(2 * half, 10.0**-1) * 1.000001 or decimals == 0


@pytest.mark.parametrize(
    ("value", "low", "high", "said"),
    [
        (0.5, 0.4, 0.6, "half"),
        (0.494, 0.4, 0.6, "nearly half"),
        (0.506, 0.4, 0.6, "just over half"),
        (0.335, 0.3, 0.37, "about a third"),
        (0.203, 0.15, 0.25, "about one in five"),
        (0.203, 0.201, 0.205, "twenty per cent"),  # one in five is outside the interval
        (0.62, 0.5, 0.7, "sixty-two per cent"),
    ],
)
def test_simple_fractions_only_where_true(value: float, low: float, high: float, said: str):
    assert phrases.share_said(value, low, high) == said


def test_twice_only_from_one_point_nine_five():
    assert [phrases.times_said(v) for v in (1.94, 1.95, 2.05, 2.06, 0.5)] == [
        *(None, "twice", "twice", None, "half")
    ]


@pytest.mark.parametrize(
    ("value", "decimals", "said"),
    [
        (4.5, 1, "four and a half"),
        (6.333, 2, "six and a third"),
        (6.667, 2, "six and two thirds"),
        (6.143, 2, "six point one four"),  # never sevenths
        (0.5, 1, "nought point five"),
        (36.0, 1, "thirty-six"),
    ],
)
def test_halves_and_thirds_when_true_to_the_rounding(value: float, decimals: int, said: str):
    assert phrases.value_said(value, decimals) == said


def test_amounts_under_one():
    assert phrases.amount(0.5, 1, "runs an over") == "half a run an over"
    assert phrases.amount(0.6, 1, "points") == "nought point six of a point"
    assert phrases.amount(0.6, 1, "per cent") == "nought point six per cent"
    assert phrases.amount(1.0, 0, "points") == "one point"


def test_cricket_has_its_own_notation():
    """Overs and balls, scores, figures (common practice; no source)."""
    assert [cricket.overs_shown(balls) for balls in (45, 60, 5)] == ["7.3", "10", "0.5"]
    assert cricket.overs_shown(20, balls_per_over=8) == "2.4"
    assert (
        cricket.overs_said(45) == "seven and a half overs"
        and cricket.overs_said(3) == "half an over"
    )
    assert cricket.overs_said(46) == "seven overs and four balls"
    assert (
        cricket.overs_said(61) == "ten overs and one ball" and cricket.overs_said(6) == "one over"
    )
    assert cricket.score_said(240, 6) == "two hundred and forty for six"
    assert (
        cricket.score_said(99, 10) == "ninety-nine all out"
        and cricket.score_said(4, 0) == "four for none"
    )
    assert cricket.figures_said(4, 32) == "four for thirty-two"


def test_rounding_is_half_away_from_zero_and_never_minus_nought():
    assert [numbers.shown(v, 1) for v in (0.25, -0.25, -0.04)] == ["0.3", "−0.3", "0.0"]
    assert numbers.shown(2.675, 2) == "2.68" and numbers.shown(1234567, 0) == "1,234,567"


def test_signs_percents_and_points():
    assert numbers.percent(0.0334) == "+3.3%" and numbers.percent(-0.1) == "−10.0%"
    assert numbers.points(1.08) == "+1.1 pts" and numbers.shown(0.0, 1, signed=True) == "0.0"


def test_said_in_british_english():
    assert numbers.said(4.5, 1) == "four point five" and numbers.said(31, 1) == "thirty-one"
    assert numbers.said(1204, 0) == "one thousand two hundred and four"
    assert numbers.said(0.07, 2) == "nought point nought seven"


def test_a_unit_agrees_with_one():
    assert numbers.with_unit("one", "balls a wicket") == "one ball a wicket"
    assert numbers.with_unit("one point two", "runs an over") == "one point two runs an over"
    assert numbers.with_unit("one", "percentage points") == "one percentage point"
    assert numbers.with_unit("one", "boundaries") == "one boundary"
    assert numbers.with_unit("one", "per cent") == "one per cent"
    assert numbers.with_unit("one", "sixes") == "one six"
    assert numbers.with_unit("one", "dot balls") == "one dot ball"


def test_arithmetic_is_shown_to_six_figures_without_an_exponent():
    shown = [numbers.figures(v) for v in (4.153021, 1_234_567.0, -0.3333541, 100, 0.0)]
    assert shown == ["4.15302", "1,234,570", "−0.333354", "100", "0"]
    assert numbers.figures(0.25, signed=True) == "+0.25"


@pytest.mark.parametrize(
    ("half", "decimals"), [(3.0, 0), (0.6, 0), (0.3, 1), (0.06, 1), (0.04, 2), (12.0, 0)]
)
def test_no_digit_finer_than_the_interval(half: float, decimals: int):
    assert numbers.bearable(half, 2) == decimals


def test_whose_number_and_where():
    """Owners own; places and phases follow; filters are said as cells are."""
    where = {"bowler_kind": ["spin"], "overs": [11, 40]}
    said = subject({"values": {"innings": "1"}}, {**BEAT, "where": where}, ECONOMY, FORM)
    assert said == "spin’s economy in overs 11 to 40 in the first innings"
    rate = {**ECONOMY, "said": "the economy rate"}
    assert (
        subject({"values": {"phase": "death"}}, BEAT, rate, FORM) == "the economy rate at the death"
    )
    hands = {"values": {"batter_hand": "left"}}
    assert subject(hands, BEAT, ECONOMY, FORM) == "left-handers’ economy"


@pytest.mark.parametrize(
    ("means", "verdict", "change", "word"),
    [
        ("rises", "changed", 0.1, "The data agree"),
        ("rises", "changed", -0.1, "The data disagree"),
        ("rises", "held", 0.0, "The data disagree"),
        ("holds", "held", 0.0, "The data agree"),
        ("holds", "changed", 0.1, "The data disagree"),
        ("falls", "can't tell", -0.1, "The data can’t say"),
    ],
)
def test_expected_against_found(means: str, verdict: str, change: float, word: str):
    assert expected_found(means, finding(change, 0.05, verdict))[0] == word


def told(*found: dict, beat: dict = BEAT) -> list[tuple]:
    return [(each, beat, ECONOMY) for each in found]


def test_the_answer_in_one_breath():
    moved = finding(-0.10, 0.03, "changed", drift=drift("beyond the drift"))
    held = finding(0.01, 0.02, "held", values={"bowler_kind": "pace"})
    open_one = finding(0.02, 0.1, "can't tell")
    assert answer(told(moved, held, open_one), FORM) == [
        "Spin’s economy in the middle overs fell by about ten per cent.",
        "That is beyond the drift that was there anyway.",
        "Pace’s economy held.",
        "On one headline number the data can’t say.",
    ]


def test_the_answer_for_a_gap_and_a_turn():
    found = told(finding(-0.1, 0.03, "changed", about="turn", values={}, turn=turn()), beat=TURN)
    found += told(gap(-0.10, 0.03, "changed", 0.03, -0.07), beat=GAP)
    assert answer(found, FORM, EVENT) == [
        "Set against pace’s, spin’s economy went down about ten per cent.",
        "Don’t tell the data when the long rope came: asked blind, they put a break in economy "
        "between 2016 and 2017.",
    ]


def test_nothing_told_says_what_would_settle_it():
    """The smallest change seen shrinks with the root of the matches: twice as fine, four times."""
    open_one = finding(0.025, 0.1, "can't tell", detectable_change=0.05)
    assert more_matches(open_one) == pytest.approx(40 * 3, abs=5)
    assert answer(told(open_one), FORM) == [
        "None of the headline numbers can be told from no change at all.",
        "It would take about one hundred more matches on each side to settle the nearest of them.",
    ]
    hopeless = finding(0.0001, 0.1, "can't tell")
    assert len(answer(told(hopeless), FORM)) == 1


def lists(kept: int, **more) -> dict:
    arms = {"right pace": kept - 2, "left pace": 1, "right spin": 5, "left spin": 4}
    base = {"kept": kept, "in_both": kept + 9, "left_out": 9, "in_either": kept + 30, "arms": arms}
    return {**base, "hands": {}, "at_least": {"count": 300, "of": "balls"}, **more}


def test_twice_is_said_where_it_is_twice():
    twice = finding(1.0, 0.2, "changed")
    assert "That is twice what it was." in statement(twice, BEAT, ECONOMY, FORM)
    assert not any(
        "twice" in s for s in statement(finding(0.9, 0.2, "changed"), BEAT, ECONOMY, FORM)
    )


def test_a_list_of_players_is_no_ranking():
    names = [{**player(False), "values": {"bowler": f"P {n}"}} for n in range(12)]
    assert list_said(lists(12), names, PLAYERS) == [
        "Twelve names, twelve different numbers, and nothing here separates them.",
        "To be here takes three hundred balls in each window; that left out nine of those in both.",
        "Only one of them is a left-arm quick.",
    ]
    two = [{**player(True), "values": {"bowler": f"P {n}"}} for n in range(2)]
    said = list_said(lists(14), [*two, *names], PLAYERS)
    assert said[0] == "Two of fourteen moved by more than luck: P 0 and P 1."
    assert list_said(lists(0), [], PLAYERS) == [
        "Nobody had three hundred balls in both windows, so there are no names here."
    ]


def test_a_mix_says_who_bowled_how_much():
    group = finding(0.0, 0.1, "held", values={"bowler_kind": "spin"}, shares=[0.36, 0.44])
    assert share_said(group, MIX, FORM) == (
        "Spin bowled thirty-six per cent of the balls in the middle overs before, forty-four after."
    )
    simple = {**group, "shares": [0.335, 0.5]}
    assert share_said(simple, MIX, FORM) == (
        "Spin bowled about a third of the balls in the middle overs before, half after."
    )
    still = {**group, "shares": [0.361, 0.359]}
    assert share_said(still, MIX, FORM).endswith("in the middle overs, before and after.")


@pytest.mark.parametrize(
    ("beat", "found", "temptation"),
    [
        (
            BEAT,
            [finding(0.1, 0.03, "changed", drift=drift("in line with the drift"))],
            "“Because of the long rope.” Some of it was on its way there anyway, and a step is "
            "not a cause.",
        ),
        (
            BEAT,
            [finding(0.1, 0.03, "changed", drift=drift("beyond the drift"))],
            "“Because of the long rope.” There is a step at the date; what made it is not in the "
            "data.",
        ),
        (
            BEAT,
            [finding(0.02, 0.1, "can't tell")],
            "“No difference.” The data can’t tell, which is not the same.",
        ),
        (
            BEAT,
            [finding(0.01, 0.02, "held")],
            "“Exactly the same.” It held within a margin set in advance.",
        ),
        (
            SHARE_BEAT,
            [share(4.0, 0.9, "changed")],
            "“Up 16 per cent.” A share moves in points; per cent of a per cent misleads.",
        ),
        (
            GROUPS,
            [finding(0.1, 0.03, "changed", about="groups")],
            "“Because they are different.” Other things differ between the groups too.",
        ),
        (
            GAP,
            [
                gap(-0.02, 0.1, "can't tell", 0.03, -0.07),
                finding(0.03, 0.04, "can't tell", values={"bowler_kind": "pace"}),
                finding(-0.07, 0.03, "changed", values={"bowler_kind": "spin"}),
            ],
            "“Only spin changed.” Changed here and can’t tell there is not a difference.",
        ),
        (
            MIX,
            [finding(-0.06, 0.01, "changed", about="mix", values={})],
            "“They did it better.” Part of the change is who did it, not how.",
        ),
        (
            TURN,
            [finding(-0.1, 0.03, "changed", about="turn", values={}, turn=turn())],
            "“Because of the long rope.” A date that fits is not a cause.",
        ),
        (
            PLAYERS,
            [player(False)] * 3,
            "“The biggest loser was …” Nobody is told apart: the ends of a list are mostly luck.",
        ),
    ],
)
def test_what_not_to_say(beat: dict, found: list[dict], temptation: str):
    assert temptation in dont_say(beat, found, EVENT, FORM)


NOTES = {
    "few_matches": {"matches": 8},
    "few_counted": {"count": 12, "wickets": True},
    "one_match_dominates": {"share": 0.31},
    "scale_disagrees": {},
    "check_disagrees": {"p": 0.04, "p_permutation": 0.12},
    "unknown_left_out": {"share": 0.031},
    "coverage_low": {"share": 0.21},
    "transition_season": {"season": "2017"},
    "rival_event": {"names": ["the new ball", "the drinks break"]},
    "opposition_changed": {"share": 0.4},
    "drift_not_testable": {"because": "few_seasons_after", "seasons_after": 2, "seasons_before": 9},
    "simpson": {},
    "mix_moved": {"mix": -0.05, "change": -0.08, "simpson": False},
    "reduced_matches": {"matches": 8, "of": 400},
    "survivors_only": {
        "in_either": 60,
        "in_both": 30,
        "kept": 11,
        "at_least": {"count": 300, "of": "balls"},
    },
}


def test_every_note_has_words_and_a_rank():
    assert set(NOTES) == set(notes.RANK) == set(notes._WORDS)
    for code, values in NOTES.items():
        said = notes.caution({"code": code, **values})
        assert said[0].isupper() or said[0].isdigit()
        assert said.endswith(".") and "None" not in said and len(said) < 190
    assert notes.caution({"code": "few_counted", **NOTES["few_counted"]}).startswith(
        "Only 12 wickets"
    )
    assert "the new ball and the drinks break" in notes.caution(
        {"code": "rival_event", **NOTES["rival_event"]}
    )


def test_cautions_are_said_once_the_worst_first():
    many = [{"code": "few_matches", "matches": n} for n in (18, 8, 19)]
    many += [{"code": "unknown_left_out", "share": 0.03}, {"code": "simpson"}]
    said = notes.ranked(many)
    assert len(said) == 3 and said[0].startswith("The whole and its parts")
    assert said[1].startswith("Only 8 matches") and said[2].startswith("3.0% of the balls")


def test_lines_that_turn_say_so():
    up = finding(0.1, 0.03, "changed", id="b.economy.x")
    down = finding(-0.1, 0.03, "changed", id="b.economy.y")
    view = {"format": FORM, "event": EVENT}
    lines = _lines(
        [up, down, up | {"id": "b.economy.z", "verdict": "held"}],
        BEAT,
        ECONOMY,
        {"headlines": []},
        view,
    )
    starts = [line.split(".")[0] for line in lines]
    assert starts[1] == "Now the other way" and not starts[2].startswith("Now")


def test_words_are_counted_as_they_are_read():
    """Figures are spelled out first; 'thirty-one' is two words read at 160 a minute."""
    assert script.spelled("From 4.5 in 2009 to 1,204 in 2017, over 41 to 45") == (
        "From four point five in two thousand and nine to one thousand two hundred and four in "
        "twenty seventeen, over forty-one to forty-five"
    )
    assert script.words("It’s 31 runs") == 4 and script.spelled("1905") == "nineteen oh five"
    assert script.timing(160) == (60, 53, 64) and script.clock(75) == "1:15"


def test_the_run_sheet_adds_up_with_its_sponsors():
    page = {"title": "One", "position": 1, "id": "one"}
    parts = [{"lines": ["It rose. " + "word " * 158], "chart": {"chart": "one.rate"}}]
    other = {**page, "id": "two", "position": 2, "parts": []}
    sheet = run_sheet(
        [{**page, "parts": parts}, other], [{"after": "one", "seconds": 30, "say": None}]
    )
    assert [row["total"] for row in sheet["rows"]] == ["1:00", "1:30", "1:30"]
    assert sheet["rows"][0]["opening"] == "It rose." and sheet["rows"][1]["sponsor"] == "Sponsor"
    assert (sheet["total"], sheet["range"]) == ("1:30", "1:23 to 1:34")
    assert opening([]) == "" and opening(["No stop"]) == "No stop"


def test_background_without_a_source_is_marked_and_counted():
    blank = dict.fromkeys(("source", "checked", "by"))
    items = [
        {"say": "One", **blank},
        {"say": "Two", **blank, "source": "Minutes, p. 4"},
        {"say": "Three", "source": "Minutes", "checked": "2026-11-20", "by": "A Reader"},
    ]
    marked = background(items)
    assert [item["mark"] for item in marked] == ["needs a source", "not yet checked", None]
    assert marked[2]["checked"] == "checked 2026-11-20 by A Reader"
    assert caution(items) == ["1 background statement needs a source before it is said on air."]
    assert caution(items[1:]) == []


def edition(folder: Path, number: int, display: str) -> None:
    data = folder / "rope" / str(number) / "data"
    data.mkdir(parents=True)
    fact = {"id": "sixes.rate", "display": display, "spoken": f"said {display}"}
    (data / "facts.json").write_text(json.dumps([fact]), "utf-8")
    (data / "edition.json").write_text(json.dumps({"date": f"2026-0{number}-01"}), "utf-8")


def test_facts_of_earlier_episodes_are_cited_with_edition_and_date(tmp_path: Path):
    edition(tmp_path, 1, "4.1")
    asked = [{"fact": "rope/1:sixes.rate", "say": "Sixes then"}]
    (found,) = cited(asked, tmp_path, "t.yaml")
    assert (found["display"], found["edition"], found["later"]) == (
        "4.1",
        "rope, edition 1, 2026-01-01",
        None,
    )
    edition(tmp_path, 2, "4.3")
    assert cited(asked, tmp_path, "t.yaml")[0]["later"] == "edition 2 (2026-02-01) says 4.3"
    wrong = [{"fact": "rope/9:sixes.rate", "say": None}, {"fact": "rope/1:sixes.rat", "say": None}]
    with pytest.raises(UserError) as caught:
        cited(wrong, tmp_path, "t.yaml")
    assert "no archived edition 'rope/9' (there: rope/1, rope/2)" in str(caught.value.problems[0])
    assert "has no fact 'sixes.rat' (did you mean 'sixes.rate'?)" in str(caught.value.problems[1])
