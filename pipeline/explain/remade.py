"""A fact made again from the clean tables: its beat's query, its finding, the fact."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pipeline.asked_fact import touching
from pipeline.brief.facts import facts_of
from pipeline.config import views
from pipeline.config.load import Config
from pipeline.in_memory import numbers_of

View = dict[str, Any]


@dataclass(frozen=True)
class Again:
    """The fact's value as made again, whether it is the same, and what touches its matches."""

    value: Any
    same: bool
    corrections: list[View]
    measure: View | None


def made_again(config: Config, topic: str, fact: View, findings: View, data: Path) -> Again:
    """Run the query of the fact's beat and everything after it; compare to the last digit."""
    asked = views.metrics(config, topic)
    beats = [beat for beat in asked.beats if beat.id == fact["beat"]] or asked.beats
    view = views.significance(config, topic)
    view = view.model_copy(update={"beats": beats, "headlines": []})
    rows, _, found = numbers_of(asked.model_copy(update={"beats": beats}), view, data)
    if fact["id"].startswith("family."):
        found.family = findings.family  # counted over all beats, not over one
    _as_judged(found, findings)
    made = {each["id"]: each for each in facts_of(views.brief(config, topic), found)}
    again = made.get(fact["id"])
    keys = ("value", "low", "high", "display")
    same = again is not None and all(again[key] == fact[key] for key in keys)
    measure = views.brief(config, topic)["measures"].get(fact["measure"])
    return Again(again and again["value"], same, touching(fact, findings, rows), measure)


def _as_judged(found: View, findings: View) -> None:
    """Verdicts are the topic's: alone, a beat would be a smaller family."""
    judged = {finding["id"]: finding for finding in findings["findings"]}
    for finding in found["findings"]:
        if finding["id"] in judged:
            finding.verdict = judged[finding["id"]]["verdict"]
