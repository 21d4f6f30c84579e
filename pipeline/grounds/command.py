"""python -m pipeline grounds [--accept-countries]: countries of the grounds that have none.

They are suggested by the city that the match files or the sheet state, from GeoNames (CC BY 4.0).
With --accept-countries those beyond doubt are written into the grounds' sheet, with their source;
no cell that is filled is touched. What is left is listed with the reason.
"""

from __future__ import annotations

import argparse
from pathlib import Path

import duckdb

from pipeline.clean.sheets import GROUND_COLUMNS, GROUND_OPTIONAL, read_grounds
from pipeline.config.load import DEFAULT, load_project
from pipeline.errors import Problem, UserError, write_atomically
from pipeline.grounds.suggested import Met, Suggested, suggested
from pipeline.new_topic.held import matches_table
from pipeline.sheet_text import filled
from pipeline.sql import quoted
from pipeline.terminal import say

BOM = b"\xef\xbb\xbf"
UNKNOWN = """
SELECT DISTINCT venue, coalesce(venue_city, '') AS city
FROM read_parquet({}) WHERE country = 'unknown' AND venue IS NOT NULL ORDER BY ALL
"""


def grounds(words: list[str]) -> None:
    """Print what is suggested, or write it. Raises UserError where there is no sheet to write."""
    parser = argparse.ArgumentParser(prog="python -m pipeline grounds", description=__doc__)
    parser.add_argument("--accept-countries", action="store_true", help="write them")
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--output", type=Path, default=Path("output"))
    options = parser.parse_args(words)
    sheet = load_project(options.config).project.grounds
    if sheet is None:
        message = "no sheet of grounds is named; write grounds: config/grounds.csv, and its header"
        raise UserError(Problem(str(options.config / "project.yaml"), message))
    query = UNKNOWN.format(quoted(matches_table(options.output)))
    met = [Met(*row) for row in duckdb.connect().execute(query).fetchall()]
    found = suggested(met, read_grounds(sheet))
    if options.accept_countries and found.accepted:
        _write(Path(sheet), found)
    say(*_told(found, sheet, options.accept_countries))


def _write(path: Path, found: Suggested) -> None:
    """The sheet with the countries; a byte order mark stays."""
    raw = path.read_bytes()
    mark = BOM if raw.startswith(BOM) else b""
    columns = (*GROUND_COLUMNS, *GROUND_OPTIONAL)
    text = filled(raw.removeprefix(mark).decode("utf-8"), found.cells, found.added, columns)
    write_atomically(path, mark + text.encode("utf-8"))


def _told(found: Suggested, sheet: str, written: bool) -> list[str]:
    if not found.accepted and not found.left:
        return ["every ground of the data has its country"]
    count = len(found.accepted)
    many = f"{count:,} {'country' if count == 1 else 'countries'}"
    if not count:
        head = "no country that is lacking is beyond doubt; nothing to write"
    elif written:
        head = f"{many} written into {sheet}; make brief counts with them"
    else:
        head = f"{many} can be accepted: add --accept-countries to write them into {sheet}"
    lines = [head, *(f"  {line}" for line in found.accepted)]
    if found.left:
        lines.append(f"left, for somebody who knows ({len(found.left):,}):")
        lines += [f"  {line}" for line in found.left]
    return lines
