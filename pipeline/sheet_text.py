"""A sheet's text with some cells filled and rows added; every other line stays to the letter."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping, Sequence

from pipeline.csv_files import Row, neutral


def filled(
    text: str, cells: Mapping[int, Row], added: Iterable[Row], columns: Sequence[str]
) -> str:
    """The text with `cells` (by the line that `read_sheet` gives a row) and rows at its end.

    `columns` that the header lacks are put behind its last, if anything is filled there.
    """
    added = list(added)
    filling = {name for row in (*cells.values(), *added) for name, value in row.items() if value}
    records = list(_records(text))
    _, head, header = records[0]
    names = [name.strip() for name in header]
    while names and not names[-1]:  # commas at the header's end are nothing
        names.pop()
    more = [name for name in columns if name not in names and name in filling]
    end = "\r\n" if "\r\n" in text else "\n"
    out = [",".join([re.sub(r"[\s,]+$", "", head), *more]) + end]
    names += more
    for line, raw, old in records[1:]:
        out.append(_row(names, old, cells[line], end) if line in cells else _ended(raw, end))
    return "".join([*out, *(_row(names, [], row, end) for row in added)])


def _records(text: str) -> Iterable[tuple[int, str, list[str]]]:
    """Each record with its last line's number, its text and its cells."""
    lines = list(io.StringIO(text, newline=""))
    reader, before = csv.reader(lines), 0
    for cells in reader:
        yield reader.line_num, "".join(lines[before : reader.line_num]), cells
        before = reader.line_num


def _row(names: Sequence[str], old: list[str], new: Row, end: str) -> str:
    out = io.StringIO()
    told = [*old, *[""] * (len(names) - len(old))]
    cells = [neutral(new[n]) if n in new else told[at] for at, n in enumerate(names)]
    csv.writer(out, lineterminator=end).writerow(cells)
    return out.getvalue()


def _ended(raw: str, end: str) -> str:
    return raw if raw.endswith(("\n", "\r")) else raw + end
