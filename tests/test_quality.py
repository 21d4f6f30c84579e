"""The quality report: what is held against the balls, and what can't be."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.builders import cleaned, delivery, match, quality_of


def played(target: dict[str, Any], **outcome: Any) -> dict[str, Any]:
    """Northmoor make six, Southfen one."""
    found = match([delivery(6)], outcome=outcome)
    ball = {**delivery(1), "batter": "Q Bowl", "non_striker": "R Bowl", "bowler": "A Batt"}
    reply = {"team": "Southfen", "overs": [{"over": 0, "deliveries": [ball]}], "target": target}
    found["innings"].append(reply)
    return found


@pytest.mark.parametrize(("overs", "checked"), [(50, 1), (40, 0), (49.5, 0)])
def test_a_reduced_target_is_not_held_against_the_balls(tmp_path: Path, overs, checked: int):
    """Then the side with fewer runs may have won, and the target is not one more than was made."""
    found = played({"runs": 2, "overs": overs}, winner="Southfen", by={"wickets": 10})
    report = quality_of(cleaned(tmp_path, only={"m1.json": found}))
    assert report["checked"]["winners"] == report["checked"]["targets"] == checked
    assert report["checked"]["winners_not_checked"] == 1 - checked
    odd = {name: report["odd"][f"{name}_that_disagree"]["count"] for name in ("winners", "targets")}
    assert odd == {"winners": checked, "targets": checked}


def test_a_tie_decided_otherwise_is_not_held_against_the_balls(tmp_path: Path):
    found = played({"runs": 7}, result="tie", eliminator="Southfen")
    report = quality_of(cleaned(tmp_path, only={"m1.json": found}))
    assert report["checked"] == {"winners": 0, "targets": 1, "winners_not_checked": 1}
    assert report["odd"]["winners_that_disagree"]["count"] == 0
