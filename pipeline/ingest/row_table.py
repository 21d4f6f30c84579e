"""Rows of layout `table` as ours are written."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from pipeline.date_forms import ISO, day_of
from pipeline.ingest.row_checks import Bad
from pipeline.ingest.row_forms import Text, in_our_forms
from pipeline.ingest.row_repeats import told_once

if TYPE_CHECKING:
    from pipeline.config.project import Source

KEPT = ("file", "line")


def formed(frame: pd.DataFrame, source: Source, bad: Bad) -> pd.DataFrame:
    """Rows of layout `table` as ours are written; those that can't be are named."""
    if source.layout != "table" or frame.empty:
        return frame
    columns = {str(name): _text(frame[name]) for name in frame.columns if name not in KEPT}
    columns, wrong = in_our_forms(columns, source.written, source.date_format)
    if "date" in columns:
        columns["date"] = _days(columns["date"], source.date_format)
    for each in wrong:
        bad.rows(_frame(columns, frame), pd.Series(each.rows, frame.index), each.message)
    told = told_once(columns, len(frame))
    rows = frame[told.kept]
    made = _frame(told.columns, rows)
    for each in told.wrong:
        bad.rows(made, pd.Series(each.rows, made.index), each.message)
    return made.drop(columns=[n for n in ("extra_kind", "delivery") if n in made]).reset_index(
        drop=True
    )


def _days(column: Text, form: str) -> Text:
    """Dates as YYYY-MM-DD; one that is not of the form says so, and is refused as no date."""
    if form == ISO:
        return column
    days = [day_of(text.strip(), form) for text in column.values]
    told = [
        day.isoformat() if day else f"{text} (not {form})"
        for text, day in zip(column.values, days, strict=True)
    ]
    return Text(column.codes, told)


def _text(series: pd.Series) -> Text:
    codes, values = pd.factorize(series)
    return Text(codes, [str(value) for value in values])


def _frame(columns: dict[str, Text], rows: pd.DataFrame) -> pd.DataFrame:
    made = {
        name: pd.Series(np.array(column.values, object)[column.codes], rows.index, dtype=str)
        for name, column in columns.items()
    }
    return pd.DataFrame({**made, **{name: rows[name] for name in KEPT}})
