"""Names that other rooms still ask of this module."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding
from pipeline.wording import of_kinds
from pipeline.wording.linked import linked

if TYPE_CHECKING:
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.config.views import NamedEvent

__all__ = ["linked", "statement"]


def statement(
    finding: Finding,
    beat: AnyBeat,
    measure: Measure,
    form: Format,
    event: NamedEvent | None = None,
) -> list[str]:
    return of_kinds.said(finding, beat, measure, form, event)
