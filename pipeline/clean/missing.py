"""Which part of a correction's place is not in the data, and the nearest that is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import duckdb

from pipeline.clean.corrections import Correction
from pipeline.errors import nearest


def missing(db: duckdb.DuckDBPyConnection, correction: Correction) -> str:
    """What a line about a match, or a part of one, names that is not there.

    Reads `kept`, `kept_innings` and `played`.
    """
    place = correction.place
    match = place["match"]
    at: list[Any] = [match]
    ids = _column(db, "SELECT match_id FROM kept")
    if match not in ids:
        return f"no match '{match}' in the data{near(match, ids)}"
    if "innings" not in place:
        return f"match '{match}' has no such row"
    said = f"match '{match}'"
    query = "SELECT innings FROM kept_innings WHERE match_id = ? ORDER BY 1"
    numbers = _column(db, query, at)
    if int(place["innings"]) not in numbers:
        return f"{said} has no innings {place['innings']}{_nearest(place['innings'], numbers)}"
    at, said = [*at, int(place["innings"])], f"innings {place['innings']} of {said}"
    if "over" not in place:
        return f"no {said} in the data"
    numbers = _column(
        db, "SELECT DISTINCT over FROM played WHERE match_id = ? AND innings = ? ORDER BY 1", at
    )
    if int(place["over"]) not in numbers:
        return f"{said} has no over {place['over']}{_nearest(place['over'], numbers)}"
    at, said = [*at, int(place["over"])], f"over {place['over']} of {said}"
    query = "SELECT count(*) FROM played WHERE match_id = ? AND innings = ? AND over = ?"
    (count,) = _column(db, query, at)
    return f"{said} has no delivery {place['delivery']}; it has {_deliveries(count)}"


def near(name: str, names: Iterable[str | None]) -> str:
    """' (did you mean 'm1'?)', or nothing where none is like it."""
    found = nearest(name, filter(None, names))
    return f" (did you mean '{found}'?)" if found else ""


def _column(db: duckdb.DuckDBPyConnection, query: str, values: Sequence[Any] = ()) -> list[Any]:
    return [row[0] for row in db.execute(query, list(values)).fetchall()]


def _nearest(number: str, numbers: list[int]) -> str:
    """'; the nearest is 50 (it has 1 to 50)'."""
    if not numbers:
        return "; it has none"
    close = min(numbers, key=lambda each: (abs(each - int(number)), each))
    held = f"{numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else str(numbers[0])
    return f"; the nearest is {close} (it has {held})"


def _deliveries(count: int) -> str:
    return "1 delivery" if count == 1 else f"{count} deliveries"
