"""What else changed between the windows, and the change like for like."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
import statsmodels.api as sm
from hypothesis import given, settings
from hypothesis import strategies as st

from pipeline.config import views
from pipeline.config.load import load
from pipeline.config.views import Scale
from pipeline.contracts.files import as_json
from pipeline.contracts.finding import Change
from pipeline.contracts.notes import NotLikeForLike
from pipeline.metrics.stage import composed_of, tallies_of
from pipeline.significance.composition import composition_of
from pipeline.tables import MIX
from pipeline.wording.composition import what_else
from tests.brief_makers import findings_of
from tests.league import FIVE, codes, findings, league
from tests.sides import RUNS_AN_OVER, asked, between, fixtures, rows_of
from tests.told import Told
from tests.told import asked as brief_of
from tests.word_makers import BEAT, FORM

TEN = [f"Side {letter}" for letter in "ABCDEFGHIJ"]
REPLACED = {"before": ["Weakford", *TEN[1:]], "after": ["Strongby", *TEN[1:]]}
SAME = {"before": TEN, "after": TEN}
BATTING = {"Weakford": -0.35, "Strongby": 0.35}


def skilled(window: str, bat: str, bowl: str, ground: str) -> float:
    """Runs a ball: what the batting side makes of it, and nothing else."""
    return 0.8 * float(np.exp(BATTING.get(bat, 0.02 * (ord(bat[-1]) % 5 - 2))))


def test_a_weak_side_replaced_by_a_strong_one_is_no_change_like_for_like():
    rng, told = np.random.default_rng(1), []
    for _ in range(6):
        finding, found = asked(rows_of(rng, REPLACED, skilled, spread=0.05))
        told.append((finding.verdict, found.differs))
        assert found.like_for_like and found.held_still and found.sides == 9
        assert abs(found.like_for_like.value) < 0.03
        assert abs(found.held_still.value) < 0.03 < finding.told.change.value
        assert found.moved[0].by in ("batting_team", "bowling_team")
        by = {moved.by: moved for moved in found.moved}
        batting = by["batting_team"]
        assert batting.value in ("Strongby", "Weakford") and batting.variation > 0.08
        assert {batting.before, batting.after} & {0.0}
        assert batting.effect and batting.effect.low > 0.03
        assert by["bowling_team"].effect and abs(by["bowling_team"].effect.value) < 0.04
    assert told.count(("changed", "like for like")) + told.count(("changed", "held still")) == 6


def test_a_change_of_the_game_is_one_like_for_like_too():
    def faster(window: str, *of: str) -> float:
        return skilled(window, *of) * (1.1 if window == "after" else 1.0)

    rng = np.random.default_rng(2)
    for _ in range(4):
        finding, found = asked(rows_of(rng, SAME, faster))
        assert finding.verdict == "changed" and found.differs is None
        assert found.like_for_like and found.like_for_like.low > 0
        assert found.held_still and found.held_still.low > 0


def test_swapped_windows_turn_every_number_round():
    rows = rows_of(np.random.default_rng(3), REPLACED, skilled, seasons=(2, 3))
    back = rows.assign(window=rows["window"].map({"before": "after", "after": "before"}))
    (one, found), (_, turned) = asked(rows), asked(back)
    for a, b in (
        (found.like_for_like, turned.like_for_like),
        (found.held_still, turned.held_still),
    ):
        assert a and b and np.log1p(a.value) == pytest.approx(-np.log1p(b.value), abs=1e-9)
        assert np.log1p(a.low) == pytest.approx(-np.log1p(b.high), abs=1e-9)
    for moved, moved_back in zip(found.moved, turned.moved, strict=True):
        assert (moved.before, moved.after) == (moved_back.after, moved_back.before)
        assert moved.effect and moved_back.effect
        assert np.log1p(moved.effect.value) == pytest.approx(-np.log1p(moved_back.effect.value))
    plain = np.log1p(one.told.change.value)
    assert found.like_for_like
    assert np.log1p(found.beyond["like for like"].value) == pytest.approx(
        np.log1p(found.like_for_like.value) - plain, abs=1e-9
    )


def test_order_of_rows_changes_nothing():
    rows = rows_of(np.random.default_rng(4), REPLACED, skilled, seasons=(1, 2))
    assert written(rows) == written(rows.iloc[::-1])


def written(rows: pd.DataFrame) -> str:
    """To the digits that are kept."""
    finding, finding.composition = asked(rows)
    return as_json(findings_of(finding))


@pytest.mark.parametrize("per_wicket", [False, True])
def test_held_still_is_what_another_program_makes_of_the_same_table(per_wicket: bool):
    """statsmodels' GLM: Poisson, log exposure as offset, errors by match (its factor taken off)."""
    rows = rows_of(np.random.default_rng(5), REPLACED, skilled, seasons=(1, 2))
    if per_wicket:
        rows = rows.assign(y=rows["balls"], x=rows["y"] // 30)
    scale = {"per_wicket": True, "kind": "average"} if per_wicket else {}
    _, found = asked(rows, **scale)
    count, exposure = (rows["x"], rows["y"]) if per_wicket else (rows["y"], rows["x"])
    factors = rows[["batting_team", "bowling_team", "innings", "ground"]].astype(str)
    design = pd.get_dummies(factors, drop_first=True, dtype=float)
    design = sm.add_constant(design.assign(after=(rows["window"] == "after").astype(float)))
    fit = sm.GLM(count, design, family=sm.families.Poisson(), offset=np.log(exposure)).fit(
        cov_type="cluster",
        cov_kwds={"groups": pd.factorize(rows["match_id"])[0], "use_correction": False},
    )
    sign = -1 if per_wicket else 1
    assert found.held_still
    assert np.log1p(found.held_still.value) == pytest.approx(sign * fit.params["after"], abs=1e-7)
    half = (np.log1p(found.held_still.high) - np.log1p(found.held_still.low)) / 2
    matches = rows["match_id"].nunique()
    assert half > 1.9 * fit.bse["after"] * np.sqrt(matches / (matches - 1))


def untidy_rows(seed: int) -> pd.DataFrame:
    """Sides that come and go, one ground or many, unequal windows, innings without a ball."""
    rng = np.random.default_rng(seed)
    pool = [*TEN[: int(rng.integers(2, 8))], "unknown"]
    sides = {
        window: sorted(rng.choice(pool, size=int(rng.integers(2, len(pool) + 1)), replace=False))
        for window in ("before", "after")
    }
    seasons = (int(rng.integers(4, 9)), int(rng.integers(4, 7)))
    rows = rows_of(rng, sides, lambda *_: rng.choice([0.02, 0.3]), seasons, balls=(1, 40))
    grounds = rng.choice(["only", "home", "none known"])
    if grounds != "home":
        rows["ground"] = "One Park" if grounds == "only" else "unknown"
    blank = rng.random(len(rows)) < 0.1
    rows.loc[blank, ["y", "x", "balls"]] = 0
    rows["innings"] = np.where(rng.random(len(rows)) < 0.1, 3, rows["innings"])
    kinds = []
    for kind, share in (("pace", 0.5), ("spin", 0.3), ("unknown", 0.2)):
        part = rows.assign(bowler_kind=kind)
        part[["y", "x", "balls"]] = (rows[["y", "x", "balls"]] * share).astype(int)
        kinds.append(part)
    return pd.concat([rows, *kinds], ignore_index=True)[MIX.names]


@given(seed=st.integers(0, 2**31))
@settings(max_examples=10, deadline=None)
def test_untidy_leagues_have_numbers_or_reasons(seed: int):
    rows = untidy_rows(seed)
    for scale in ({}, {"kind": "share", "per": 100}, {"an_innings": True}):
        try:
            finding, found = asked(rows, **scale)
        except AssertionError:
            continue  # refused, and so not asked
        finding.composition = found
        as_json(findings_of(finding))  # which holds no number that is none
        assert (found.like_for_like is None) == (found.unlike is not None)
        assert (found.held_still is None) == (found.unheld is not None)
        assert all(0 <= one.before <= 1 and 0 <= one.after <= 1 for one in found.moved)
        variations = [one.variation for one in found.moved]
        assert variations == sorted(variations, reverse=True) and max(variations, default=0) <= 1
        if found.like_for_like:
            assert found.kept and min(found.kept) >= 0.5 and found.sides >= 2
        for span in (found.like_for_like, found.held_still, *found.beyond.values()):
            assert span is None or span.low < span.value < span.high
        assert found.differs is None or found.instead is not None


def test_windows_without_a_side_in_common_have_reasons():
    sides = {"before": TEN[:4], "after": TEN[4:8]}
    _, found = asked(rows_of(np.random.default_rng(6), sides, skilled))
    assert (found.unlike, found.unheld) == ("little_in_common", "windows_apart")
    assert found.moved[0].variation == pytest.approx(1) and found.differs is None


def test_what_cant_be_told_from_the_rest_is_left_out_by_name():
    """Each of a side's matches at a ground of its own: the ground is the pair of sides."""
    rows = rows_of(np.random.default_rng(7), SAME, skilled, seasons=(2, 2))
    rows["ground"] = np.where(rows["match_id"] < "m0010", "Old Park", "New Park")
    rows["innings"] = 1
    rows.loc[rows["batting_team"] == "Side A", "y"] = 0
    _, found = asked(rows)
    assert found.held_still and "innings" not in found.held
    assert next((one.by, one.value) for one in found.left_out) == ("batting_team", "Side A")
    one_ground = rows.assign(ground="One Park")
    _, found = asked(one_ground)
    assert "ground" not in found.held and "ground" not in {one.by for one in found.moved}


def test_where_no_side_can_be_held_still_there_is_no_such_number():
    rows = rows_of(np.random.default_rng(1), SAME, skilled, seasons=(1, 1))
    kept = sorted(rows["match_id"].unique())[::4]
    few = rows[rows["match_id"].isin(kept) & (rows["innings"].astype(int) == 2)]
    _, found = asked(few)
    assert (found.held_still, found.unheld, found.held) == (None, "few_innings", [])
    assert {one.by for one in found.left_out} >= {"batting_team", "bowling_team"}


def test_many_small_sides_are_told_in_all():
    """Twelve of twenty-four sides are others, none of them with five points of the balls."""
    before = [f"Side {at:02}" for at in range(24)]
    after = [*before[:12], *(f"New {at:02}" for at in range(12))]
    finding, found = asked(
        rows_of(np.random.default_rng(1), {"before": before, "after": after}, lambda *_: 0.8)
    )
    assert not any(moved.much for moved in found.moved) and found.moved[0].variation > 0.4
    finding.composition = found
    line = what_else(finding, "", FORM)
    assert line and "though 5" in line and "of other sides in all" in line


def test_too_few_innings_leave_the_grounds_out():
    rows = rows_of(np.random.default_rng(8), {"before": TEN, "after": TEN}, skilled, (1, 1))
    few = rows[rows["match_id"].isin(sorted(rows["match_id"].unique())[::4])]
    _, found = asked(few)
    assert "ground" in {one.by for one in found.left_out if one.value is None}


def test_what_is_counted_a_match_is_not_shared_out():
    rows = rows_of(np.random.default_rng(9), SAME, skilled, seasons=(1, 1))
    finding, _ = asked(rows)
    doubled = rows.assign(x=2 * rows["x"])
    found = composition_of(doubled, finding, Scale.model_validate(RUNS_AN_OVER), BEAT)
    assert (found.unlike, found.unheld) == ("not_by_innings", "not_by_innings")
    assert found.moved and all(one.effect is None for one in found.moved)


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Five seasons on each side; a weak batting side of ten gives way to a strong one."""
    rng, matches = np.random.default_rng(10), []
    for year in range(2012, 2022):
        window = "before" if year < 2017 else "after"
        for day, (home, away) in enumerate(fixtures(REPLACED[window], year)):
            runs = [
                int(rng.poisson(24 * skilled(window, *sides, home)))
                for sides in ((home, away), (away, home))
            ]
            ground = f"{home.replace('Strongby', 'Weakford')} Park"
            matches.append(between(year, (home, away), (runs[0], runs[1]), ground, day, balls=24))
    return league(tmp_path_factory.mktemp("sides") / "l", matches)


BEATS = """  - {id: a, kind: before_after, measure: [run_rate, innings_total]}
  - {id: b, kind: before_after, measure: run_rate, by: innings}
"""
TOPIC = FIVE + "headlines: [a.run_rate]\nbeats:\n" + BEATS


@pytest.fixture(scope="module")
def told(project: Path) -> Told:
    found = brief_of(project, TOPIC)
    assert found is not None
    return found


def test_the_first_caution_is_that_it_is_another_change_like_for_like(told: Told):
    finding = next(each for each in told.findings.findings if each.id == "a.run_rate")
    assert isinstance(finding, Change) and finding.composition
    assert finding.verdict == "changed" and finding.composition.differs
    assert isinstance(finding.notes[0], NotLikeForLike)
    first = told.content.cautions[0]
    assert first.lower().startswith(("like for like, ", "with the sides held still, "))
    assert "Strongby" in first or "Weakford" in first
    (line,) = [line for line in told.content.answer if "run rate" in line]
    assert "; like for like" in line or "; with the sides held still" in line
    (said,) = [one for one in told.content.beats[0].challenged if "What else changed" in one]
    assert ("Strongby faced" in said) + ("Weakford faced" in said) == 1 or "bowled" in said
    again = told.content.beats[1].lines[0]
    ways = "rose|fell|up|down|lower|higher|climbed|dropped"
    assert "run rate" in again and not re.search(rf"\b(?:{ways})\b", again), "half of the truth"
    assert any("quasi-Poisson" in line for line in told.content.method)


def test_both_numbers_are_facts(told: Told):
    facts = {fact.id: fact for part in told.content.facts for fact in part.facts}
    finding = next(each for each in told.findings.findings if each.id == "a.run_rate")
    assert isinstance(finding, Change) and finding.composition
    for name, span in (
        ("like-for-like", finding.composition.like_for_like),
        ("held-still", finding.composition.held_still),
    ):
        fact = facts[f"a.run_rate.{name}"]
        assert span and (fact.value, fact.low, fact.high) == (span.value, span.low, span.high)


@pytest.mark.parametrize(("headlines", "noted"), [("[]", True), ("[a.run_rate]", False)])
def test_that_sides_are_new_is_no_caution_where_it_is_told_which(
    tmp_path: Path, headlines: str, noted: bool
):
    matches = [
        between(year, pair, (20 + day, 25), "One Park", day, balls=24)
        for year, sides in ((2019, TEN[:4]), (2020, [*TEN[:3], "Side Z"]))
        for day, pair in enumerate(fixtures(sides, year))
    ]
    found = findings(league(tmp_path / "l", matches), BEATS, headlines=headlines)
    for finding in found.values():
        assert ("opposition_changed" in codes(finding)) is noted
    of = found["a.run_rate"].composition
    assert (of is None) is noted
    if of:
        assert {(m.by, m.value) for m in of.moved} & {
            ("batting_team", "Side D"),
            ("batting_team", "Side Z"),
        }


def test_sums_of_innings_are_those_of_the_matches(project: Path):
    """Of every headline the rows of whole innings add up to its own counts."""
    config = load(project / "config", only="any")
    view = views.metrics(config, "any")
    table, selection = tallies_of(view, project / "output" / "data")
    rows = composed_of(view, project / "output" / "data", selection).to_pandas()
    tallies = table.to_pandas()
    assert set(rows["beat"]) == {"a"}
    whole = rows[rows["bowler_kind"].isna() & rows["phase"].isna()]
    named = ["window", "match_id"]
    own = tallies[(tallies["beat"] == "a") & (tallies["measure"] == "run_rate")]
    sums = ["y", "x", "balls"]
    assert whole.groupby(named)[sums].sum().equals(own.groupby(named)[sums].sum())
    for cut in ("bowler_kind", "phase"):
        parts = rows[rows[cut].notna()]
        assert parts.groupby(named)[sums].sum().equals(own.groupby(named)[sums].sum())
