"""The demo league: its planted truths are recovered, its sums add up, it can be made again."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest

from demo_data import generate, planted
from pipeline.batches import files_of
from pipeline.contracts.files import read_json
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from tests.asking import by_id
from tests.asking import rows as ask

ROOT = Path(__file__).parents[1]
pytestmark = pytest.mark.slow


def findings(built: Path, topic: str) -> dict[str, Finding]:
    return by_id(read_json(built / "output" / topic / "findings.json", Findings))


@pytest.mark.parametrize("kind", ["pace", "spin"])
@pytest.mark.parametrize(
    ("phase", "overs"), [("powerplay", "1-10"), ("middle", "11-40"), ("death", "41-50")]
)
def test_planted_economy_lies_in_the_interval(built: Path, kind: str, phase: str, overs: str):
    found = findings(built, "long-grass")[f"kinds.economy.{kind}-{phase}"].told.change
    truth = planted.expected_ratio(kind, overs, 5) - 1
    assert found.low < truth < found.high


def test_planted_wickets_lie_in_the_interval(built: Path):
    found = findings(built, "long-grass")["wickets.bowling_strike_rate"].told.change
    assert found.low < 0 < found.high


@pytest.mark.parametrize(("kind", "truth"), [("pace", -0.06), ("spin", 0.0)])
def test_planted_coast_effect_lies_in_the_interval(built: Path, kind: str, truth: float):
    found = findings(built, "sea-air")[f"coast.economy.{kind}"].told.change
    assert found.low < truth < found.high


def test_what_was_planted_is_called_changed(built: Path):
    assert findings(built, "long-grass")["kinds.economy.spin-middle"].verdict == "changed"


def test_the_coast_is_left_open_since_grounds_differ(built: Path):
    """Six per cent are planted; matches alone would call it, four grounds a side can't."""
    found = findings(built, "sea-air")["coast.economy.pace"]
    assert found.verdict == "can't tell" and found.because == "usual_between_clusters"
    assert found.told.cluster.wider and found.told.cluster.p_match < 0.001


@pytest.mark.parametrize(
    ("topic", "name"),
    [
        ("long-grass", "wickets.bowling_strike_rate"),
        ("sea-air", "coast.economy.spin"),
        ("sea-air", "hands.batting_strike_rate"),
        ("sea-air", "coast-wickets.bowling_strike_rate"),
        ("sea-air", "coast-wickets.bowling_strike_rate.pace"),
        ("sea-air", "coast-wickets.bowling_strike_rate.spin"),
        ("sea-air", "coast-wickets.dot_share.spin"),
    ],
)
def test_nothing_planted_is_not_called_changed(built: Path, topic: str, name: str):
    assert findings(built, topic)[name].verdict != "changed"


def test_bowlers_are_charged_all_but_byes_leg_byes_and_penalties(built: Path):
    """MCC Laws of Cricket, 2017 Code: 18, 21 to 23, 41.18 (arithmetic)."""
    charged, total, others = ask(
        "SELECT sum(runs_bowler), sum(runs_total), sum(byes + legbyes + penalty) "
        f"FROM '{built}/output/data/deliveries.parquet'"
    )[0]
    assert charged == total - others and others > 0


def test_average_is_economy_times_strike_rate_over_six(built: Path):
    """Common practice, no published source: an identity of the three figures."""
    rows = ask(
        "SELECT sum(runs_bowler)::DOUBLE, sum(legal::INT)::DOUBLE, sum(bowler_wickets)::DOUBLE "
        f"FROM '{built}/output/data/deliveries.parquet' GROUP BY bowler_id "
        "HAVING sum(bowler_wickets) > 0"
    )
    assert len(rows) > 50
    for runs, balls, wickets in rows:
        economy, strike_rate = 6 * runs / balls, balls / wickets
        assert runs / wickets == pytest.approx(economy * strike_rate / 6)


def test_innings_totals_agree_with_the_targets(built: Path):
    """A full second innings chases one run more than the first made, penalties included."""
    raw = built / "output" / "data" / "tidewater"
    innings, deliveries = (
        f"read_parquet({[str(path) for path in files_of(raw, table)]})"
        for table in ("innings", "deliveries")
    )
    rows = ask(
        f"""
        SELECT i.target_runs, sum(d.runs_total) + any_value(f.penalty_pre + f.penalty_post) + 1
        FROM {innings} i
        JOIN {innings} f ON f.match_id = i.match_id AND f.innings = 1
        JOIN {deliveries} d ON d.match_id = i.match_id AND d.innings = 1
        WHERE i.innings = 2 AND i.target_runs IS NOT NULL
            AND (i.target_overs IS NULL OR i.target_overs = '50')
        GROUP BY i.match_id, i.target_runs
        """
    )
    assert len(rows) > 500
    assert sum(target != made for target, made in rows) == 0


def test_the_committed_zip_is_what_the_generator_makes():
    with zipfile.ZipFile(ROOT / "demo_data" / "tidewater-shield.zip") as archive:
        stored = {name: archive.read(name) for name in archive.namelist()}
    assert stored == generate.match_members()


def test_findings_hold_no_undefined_number(built: Path):
    for topic in ("long-grass", "sea-air"):
        text = (built / "output" / topic / "findings.json").read_text("utf-8")
        assert "NaN" not in text and "Infinity" not in text
