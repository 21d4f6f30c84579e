"""Findings of an edition, or of a topic that is built, whichever version wrote them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from pipeline.config.comparison import comparison_of
from pipeline.config.views import SignificanceView
from pipeline.contracts.comparison import Comparison
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.contracts.selection import Selection
from pipeline.contracts.upgrades.findings import findings_of_format_0, selection_of_format_0
from pipeline.editions.reading import read_view


def read_findings(folder: Path, mend: str) -> Findings:
    """Those of an older version get the questions that they answer from the settings of then."""

    def upgrade(found: Any) -> dict[str, Any]:
        return findings_of_format_0(found, _asked_then(folder, mend))

    return read_json(folder / "findings.json", Findings, mend, upgrade)


def _asked_then(folder: Path, mend: str) -> Callable[[dict[str, Any]], Comparison]:
    """The question that a finding answers, given as it was written then."""
    view = read_view(folder, SignificanceView, "significance", mend)
    beats = {beat.id: beat for beat in view.beats}
    path = folder / "selection.json"
    selection = read_json(path, Selection, mend, selection_of_format_0)

    def asked(flat: dict[str, Any]) -> Comparison:
        beat, control = beats[flat["beat"]], selection.beats[flat["beat"]].control
        against = beat.held_against if control and flat["cell"] in control.pairs else None
        return comparison_of(
            beat, flat["measure"], flat["about"], flat["values"], selection.timing, against
        )

    return asked
