"""Facts and corrections as tests need them, everything that does not matter filled in."""

from __future__ import annotations

from datetime import date
from typing import Any

from pipeline.contracts.facts import Fact
from pipeline.contracts.selection import Fix


def fact(identity: str, display: str, **more: Any) -> Fact:
    said = {"spoken": f"about {display}", "unit": "runs an over", "value": 1.0, "verdict": "held"}
    return Fact(**{"id": identity, "display": display, **said, **more})


def fix(**more: Any) -> Fix:
    made: dict[str, Any] = {
        **{"level": "innings", "place": {"match": "m1", "innings": "1"}, "field": "runs_batter"},
        **{"old": "1", "new": "4", "reason": "A four, scored as a single", "source": "Scorebook"},
        **{"by": "R", "date": date(2026, 11, 25)},
    }
    return Fix(**{**made, **more})
