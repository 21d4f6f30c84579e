"""Metrics: ids that must stay apart."""

from __future__ import annotations

import pytest

from pipeline.contracts.selection import Cell
from pipeline.errors import UserError
from pipeline.metrics.cells import _check


def test_two_values_of_one_id_are_an_error():
    cells = [
        Cell(id="st-mere", values={"ground": name}, known=True) for name in ("St Mere", "St. Mere")
    ]
    with pytest.raises(UserError, match=r"'St\. Mere' and 'St Mere' make one id, 'st-mere'"):
        _check(cells, "b", "t")
