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


def test_a_gap_of_which_one_group_has_no_ball_is_refused(tmp_path: Path):
    """The other group's own change is told all the same."""
    made = [shared(year, day, 12, 12) for year in (2019, 2020) for day in range(1, 8)]
    beat = BEAT.replace("}}", "}, where: {bowler_kind: spin}}")
    found = findings(league(tmp_path / "l", made, players=KINDS), beat)
    assert list(found) == ["a.run_rate", "a.run_rate.spin"]
    gap, spin = found.values()
    assert (gap.refused, gap.verdict, gap.effect) == ("no_balls", "can't tell", None)
    assert (gap.a.refused, gap.a.balls) == ("no_balls", 0)
    assert gap.b.change == spin.told.change and not spin.refused


def test_a_row_of_one_group_only_is_a_gap_that_is_refused(tmp_path: Path):
    """No spin in the second innings: its row is told, and says why there is no number."""
    made = []
    for year in (2019, 2020):
        for day in range(1, 8):
            found = shared(year, day, 12, 12)
            of_pace = scored(year, 9 + day, 12, day, bowler="A Batt")["innings"][0]["overs"]
            found["innings"].append({"team": "Southfen", "overs": of_pace})
            for ball in of_pace[0]["deliveries"]:
                ball |= {"batter": "Q Bowl", "non_striker": "R Bowl"}
            found["info"]["players"]["Southfen"].append("R Bowl")
            made.append(found)
    players = KINDS + "id-a,A Batt,,Right arm medium,\n"
    beat = BEAT.replace("}}", "}, by: innings}")
    found = findings(league(tmp_path / "l", made, players=players), beat)
    assert [name for name in found if "pace" not in name and "spin" not in name] == [
        *("a.run_rate", "a.run_rate.1", "a.run_rate.2"),
    ]
    assert not found["a.run_rate.1"].refused and found["a.run_rate.2"].refused == "no_balls"
    assert found["a.run_rate.2"].values == {"innings": "2"}
    assert "a.run_rate.pace-2" in found and "a.run_rate.spin-2" not in found
