"""A topic's ledger as a file: config/ledger/<topic>.csv, to which lines are only ever added.

Each line ends in a check of itself and of the line before it, so that a line that was changed,
moved or taken out between others is found. What was cut off the end can't be told.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import os
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import get_args

import msgspec

from pipeline.contracts.comparison import Comparison
from pipeline.contracts.ledger import EarlierLook, Role
from pipeline.csv_files import neutral, plain, read_text_of
from pipeline.digits import rounded
from pipeline.errors import Problem, UserError, replacing
from pipeline.ledger.said import asked_of, side_of

FOLDER = "ledger"  # of the configuration
SUFFIX = ".csv"
NUMBERS = ("value", "p", "p_held", "p_step", "p_control")
COLUMNS = (
    *("date", "as", "look", "asks", "before", "after"),
    *NUMBERS,
    *("comparison", "check"),
)
MEND = "put the file back as it was kept, or delete it to begin anew"


def ledger_of(config: Path, topic: str) -> Path:
    """Where a topic's ledger is, whether there is one or not."""
    return config / FOLDER / f"{topic}{SUFFIX}"


def read_ledger(path: Path | str | None) -> list[EarlierLook]:
    """Every line, the oldest first; none where there is no such file.

    Raises UserError naming the first line that is not as it was written, or what the file is.
    """
    if path is None or not _there(Path(path)):
        return []
    return [look for look, _ in _lines(Path(path))]


def add_lines(path: Path, looks: Sequence[EarlierLook]) -> None:
    """Add lines at the end, all of them or none: the file is written anew beside, then renamed.

    The caller holds the project's lock. Raises UserError where the file can't be read or written.
    """
    last, text = "", _row(COLUMNS)
    if _there(path):
        text = read_text_of(path, MEND)
        last = [last, *(check for _, check in _lines(path))][-1]
    for look in looks:
        cells = _cells(look)
        last = _check(last, cells)
        text = f"{_ended(text)}{_row([*cells, last])}"
    try:
        with (
            replacing(path) as temporary,
            temporary.open("w", encoding="utf-8", newline="") as file,
        ):
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        _keep_name(path.parent)
    except OSError as error:
        message = f"can't be written ({error.strerror}); what was looked at is not counted"
        raise UserError(Problem(str(path), message)) from None


def _there(path: Path) -> bool:
    try:
        path.lstat()
    except FileNotFoundError:
        return False
    except OSError as error:
        message = f"can't be looked for ({error.strerror}); {path.parent} is to be a folder"
        raise UserError(Problem(str(path), f"{message} that can be read")) from None
    return True


def _lines(path: Path) -> Iterator[tuple[EarlierLook, str]]:
    """Each line with its check."""
    file, last = str(path), ""
    rows = _rows(path)
    if next(rows, (1, []))[1] != list(COLUMNS):
        message = f"not the header of a ledger; expected {','.join(COLUMNS)}; {MEND}"
        raise UserError(Problem(file, message, 1, 1))
    for line, cells in rows:
        *told, check = cells if len(cells) == len(COLUMNS) else [""]
        if not told or _check(last, told) != check:
            message = f"not as the project wrote it, or the line before it is not; {MEND}"
            raise UserError(Problem(file, message, line, 1))
        last = check
        yield _look(file, line, dict(zip(COLUMNS, cells, strict=True))), check


def _rows(path: Path) -> Iterator[tuple[int, list[str]]]:
    """Each row with the number of its last line."""
    reader = csv.reader(io.StringIO(read_text_of(path, MEND), newline=""), strict=True)
    try:
        for cells in reader:
            yield reader.line_num, [plain(cell) for cell in cells]
    except csv.Error as error:
        message = f"not readable ({error}); {MEND}"
        raise UserError(Problem(str(path), message, reader.line_num, 1)) from None


def _look(file: str, line: int, row: dict[str, str]) -> EarlierLook:
    """A line whose check holds, and may be another program's all the same."""
    try:
        if row["as"] not in get_args(Role):
            raise ValueError(f"'{row['as']}' is neither headline nor expected")
        asks = msgspec.json.decode(row["comparison"], type=Comparison)
        if asks.look != row["look"]:
            raise ValueError(f"look '{row['look']}' is not that of its comparison")
        return EarlierLook(
            date=date.fromisoformat(row["date"]),
            role=msgspec.convert(row["as"], Role),
            asks=asks,
            **{name: _number(name, row[name]) for name in NUMBERS},
        )
    except (ValueError, msgspec.MsgspecError) as error:
        raise UserError(Problem(file, f"can't be read: {error}; {MEND}", line, 1)) from None


def _number(name: str, cell: str) -> float | None:
    if not cell:
        return None
    value = float(cell)
    if not abs(value) < float("inf") or (name != "value" and not 0 <= value <= 1):
        raise ValueError(f"{name} {cell} is none")
    return value


def _cells(look: EarlierLook) -> list[str]:
    """The cells of a line but its check."""
    before, after = look.asks.sides or ((), ())
    told = [rounded(getattr(look, name)) for name in NUMBERS]
    cells = [
        *(look.date.isoformat(), look.role, look.asks.look, asked_of(look.asks)),
        *(side_of(before), side_of(after)),
        *("" if value is None else str(value) for value in told),
        msgspec.json.encode(look.asks).decode(),
    ]
    return [plain(neutral(cell)) for cell in cells]  # as they will be read


def _check(last: str, cells: Sequence[str]) -> str:
    """Twelve hex digits of a line and of all before it."""
    return hashlib.sha256(json.dumps([last, *cells]).encode()).hexdigest()[:12]


def _row(cells: Sequence[str]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerow(map(neutral, cells))
    return out.getvalue()


def _ended(text: str) -> str:
    return text if text.endswith("\n") else f"{text}\n"


def _keep_name(folder: Path) -> None:
    """The renaming too is on the disk, not only the content."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
