"""A gap's two sides: each group's own change, counted by its thinner window."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.league import findings, league, scored

KINDS = """id,name,batting_hand,bowling_style,tags
id-c,C Batt,,Right arm fast,
id-q,Q Bowl,,Legbreak,
"""
BEAT = "  - {id: a, kind: gap, measure: run_rate, between: {bowler_kind: [pace, spin]}}"


def shared(year: int, day: int, pace: int, spin: int) -> dict:
    """A match of so many balls of each kind; their runs rise with the day."""
    found = scored(year, pace + day, max(pace, 1), day, bowler="C Batt")
    of_spin = scored(year, 2 * spin + day, max(spin, 1), day)["innings"][0]["overs"][0]
    balls = found["innings"][0]["overs"][0]["deliveries"]
    found["innings"][0]["overs"][0]["deliveries"] = balls[:pace] + of_spin["deliveries"][:spin]
    return found


def test_a_side_of_a_gap_is_counted_by_its_thinner_window(tmp_path: Path):
    """Before: eight matches of pace, six of spin too; after: seven of both, of fewer balls."""
    before = [shared(2019, day, 12, 12 if day <= 6 else 0) for day in range(1, 9)]
    after = [shared(2020, day, 10, 11) for day in range(1, 8)]
    found = findings(league(tmp_path / "l", [*before, *after], players=KINDS), BEAT)
    gap, pace, spin = (found[f"a.run_rate{end}"] for end in ("", ".pace", ".spin"))
    assert [side.matches for side in (gap.a, gap.b)] == [7, 6]
    assert [side.balls for side in (gap.a, gap.b)] == [70, 72]
    for side, whole in ((gap.a, pace), (gap.b, spin)):
        assert side.change.value == pytest.approx(whole.told.change.value)
        assert side.largest == max(whole.a.largest, whole.b.largest)
