"""The parts of config/BALL-TABLES.md that follow from the contract, and the page with them."""

from __future__ import annotations

import re
from pathlib import Path

from pipeline.errors import write_atomically
from pipeline.ingest.ball_tables.contract import Table
from pipeline.ingest.ball_tables.match_contract import TABLES
from pipeline.ingest.laws import CREDITED, NOT_OUT, UNCREDITED
from pipeline.open_layouts.match_types import WORDS

PAGE = Path("config/BALL-TABLES.md")
PART = re.compile(r"<!-- (\w+): made -->\n.*?<!-- /\1 -->", re.DOTALL)
KINDS = {
    "the bowler's wickets (Laws 32, 33, 35, 36, 39)": CREDITED,
    "out, and nobody's wicket (Laws 25.4, 34, 37, 38, 40)": UNCREDITED,
    "not out: may come back (Law 25.4)": NOT_OUT,
}


def write_page(page: Path = PAGE) -> None:
    """Put what the contract says into the page, where it stands between its marks."""
    write_atomically(page, as_made(page.read_text("utf-8")))


def as_made(text: str) -> str:
    """The page with its parts made anew; raises KeyError for the mark of a part that is none."""
    parts = made()
    return PART.sub(lambda m: f"<!-- {m[1]}: made -->\n\n{parts[m[1]]}\n\n<!-- /{m[1]} -->", text)


def made() -> dict[str, str]:
    """Each part by its name: the columns of every table, and the words that two of them take."""
    words = {"kinds": _kinds(), "match_types": _match_types()}
    return {name: _columns(table) for name, table in TABLES.items()} | words


def _columns(table: Table) -> str:
    need = "Needed" if table.needed else "May be absent"
    head = f"{need}. {table.meaning}\n\n| column | holds | blank, or no such column | meaning |"
    rows = [
        f"| `{column.name}` | {column.expected} | "
        f"{'an error' if column.needed else column.blank} | {column.meaning} |"
        for column in table.columns
    ]
    return "\n".join([head, "| --- | --- | --- | --- |", *rows])


def _kinds() -> str:
    rows = [
        f"| {', '.join(f'`{kind}`' for kind in sorted(kinds))} | {what} |"
        for what, kinds in KINDS.items()
    ]
    return "\n".join(["| `kind` | who is credited |", "| --- | --- |", *rows])


def _match_types() -> str:
    rows = [f"| `{word}` | {what} |" for word, what in WORDS.items()]
    return "\n".join(["| `match_type` | the match |", "| --- | --- |", *rows])
