"""A measure: a ratio of two sums over balls, as measures.yaml declares it or a beat makes it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, model_validator

from pipeline.config.fields import Line, MarginField, Strict, SumField, Whole


class Measure(Strict):
    """A ratio of two sums over balls; each number is one of these or its change."""

    label: Line = Field(description="the trade's name, as printed: 'economy'")
    said: Line | None = Field(
        None, description="as it begins a sentence: 'the run rate'; the label when absent"
    )
    numerator: SumField = Field(description="what is counted: a sum of columns, 'four + six'")
    denominator: SumField = Field(
        description="what it is counted against: a sum of columns, 'legal'"
    )
    per: float = Field(
        1, gt=0, le=1_000_000, description="the ratio is multiplied by this: 6 for an over"
    )
    kind: Literal["rate", "average", "share"] = Field(
        description="a share is a part of a whole, in per cent, with its margin in points"
    )
    unit: Line = Field(description="'runs an over'; 'per cent of balls' for a share")
    spoken: Line = Field(description="said after the number: 'an over'")
    counted: Line | None = Field(None, description="what is counted, in the plural: 'dot balls'")
    decimals: Whole = Field(ge=0, le=4, description="digits shown after the point, at most")
    rise_favours: Literal["batting", "bowling", "neither"] = Field(
        description="whom it helps when the number goes up"
    )
    margin: MarginField = Field(description="a change inside it counts as none")
    defined: Line = Field(description="the definition in plain words, printed under the number")

    @model_validator(mode="after")
    def _margin_fits_kind(self) -> Measure:
        if (self.kind == "share") != (self.margin.unit == "points"):
            raise ValueError("a share has its margin in points, a rate or an average in per cent")
        return self
