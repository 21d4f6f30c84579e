"""share: the change of how much of it they bowl or face, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from pipeline.config.cuts import OF_BATTER
from pipeline.wording.heading_words import divided_too, filtered
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.subject import where_said

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format


class Share(KindWords):
    """What is counted is who bowled, or who faced."""

    def headings(
        self, beat: AnyKind, measures: Mapping[str, Measure], form: Format
    ) -> list[list[str]]:
        """'Who bowled in the middle overs: spin’s share'."""
        did = "who faced" if set(beat.counted) & OF_BATTER else "who bowled"
        whose = measures[beat.measures[0]].label.removesuffix(" of the balls")
        wheres = dict.fromkeys(where_said(less, form) for less in filtered(beat))
        asked = [[f"{did}{where}: {whose}", f"{whose}{where}"] for where in wheres]
        return [[*divided_too(forms, beat), *forms] for forms in asked]


WORDS = Share()
