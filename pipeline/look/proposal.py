"""What is proposed of a table: its columns, how they are written, what is missing, what is odd."""

from __future__ import annotations

from dataclasses import dataclass, field

from pipeline.config.written import TODO
from pipeline.date_forms import ISO
from pipeline.look.joined_tables import BASE, name_in_sql
from pipeline.look.mapped import Guess, mapped, missing
from pipeline.look.odd_columns import counts_extras, odd_columns, passed_over
from pipeline.look.sampled import date_forms
from pipeline.look.table_head import Head
from pipeline.look.trade_words import CODES, heard
from pipeline.look.unmapped import advice

FIRST = {"DD": "day first", "MM": "month first", "YY": "year first"}
WISHED = ("competition", "match_type", "gender")  # what topics ask for: said once if in no column


@dataclass
class Proposal:
    """`written` are keys of that section; `todo` says beside a key what a person has to decide."""

    head: Head
    columns: dict[str, Guess]
    written: dict[str, object] = field(default_factory=dict)
    values: dict[str, dict[str, str]] = field(default_factory=dict)
    constants: dict[str, str] = field(default_factory=dict)
    query: str | None = None
    date_format: str | None = None
    missing: dict[str, str] = field(default_factory=dict)
    odd: list[str] = field(default_factory=list)
    todo: dict[str, str] = field(default_factory=dict)

    @property
    def unused(self) -> list[str]:
        """Columns that are none of ours."""
        used = {guess.column.name for guess in self.columns.values()}
        return [column.name for column in self.head.columns if column.name not in used]


def proposed(head: Head, match_types: list[str]) -> Proposal:
    """A map for the table; `match_types` are those that the project's formats name."""
    columns = mapped(head.columns)
    made = Proposal(head, columns, odd=list(head.notes))
    if told := counts_extras(columns):
        made.odd.append(told)
        columns["runs_total"] = columns.pop("runs_batter")
    total = columns.pop("runs_total", None)
    _written(made)
    _dates(made)
    _overs(made)
    _words(made, match_types)
    made.odd += odd_columns(columns)
    made.odd += passed_over(head.columns, columns)
    _ordered(made)
    made.missing = {name: advice(name, total) for name in missing(columns)}
    if "season" in made.missing and "date" in columns:
        del made.missing["season"]
        made.written["season"] = "year"
        made.todo["season"] = "no column says it: the year of the date, if no season straddles two"
    for name in WISHED:
        if name not in columns:
            made.constants[name] = f"{TODO}: {_choices(name, match_types)}"
    return made


def _choices(name: str, match_types: list[str]) -> str:
    if name == "match_type":
        return f"one of {', '.join(match_types)}"
    return "female or male" if name == "gender" else "its name"


def _written(made: Proposal) -> None:
    if made.head.delimiter != "comma":
        made.written["delimiter"] = made.head.delimiter
    if made.head.encoding != "utf-8":
        made.written["encoding"] = made.head.encoding
        made.odd.append(
            f"its letters are {made.head.encoding}, not UTF-8: see that its names are right"
        )
    words = {word for guess in made.columns.values() for word in guess.column.blank_words}
    if words:
        made.written["blank"] = sorted(words)


def _dates(made: Proposal) -> None:
    """The form of the dates; where two forms read all of them it is a person's to say which."""
    guess = made.columns.get("date")
    forms = date_forms(guess.column) if guess else []
    if not forms or forms[0] == ISO:
        return
    made.date_format = " or ".join(forms)
    if len(forms) > 1:
        made.odd.append(f"dates may be {made.date_format}: date_format has to say which")
        made.date_format = f"{TODO}: {made.date_format}"
    else:
        first = FIRST.get(forms[0][:2])
        told = f"{first}: " if first else ""
        made.odd.append(f"dates are {told}date_format says so ({forms[0]})")


def _overs(made: Proposal) -> None:
    for ours, first in (("over", 1), ("ball", 0)):
        guess = made.columns.get(ours)
        if not guess:
            continue
        numbers = [int(cell.replace(",", ".").split(".")[0]) for cell in guess.column.distinct]
        if min(numbers) == 1 - first:
            made.written["overs_from"] = 1 - first
            made.odd.append(f"overs begin with {1 - first}: overs_from says so")
        elif min(numbers) != first:
            told = f"the first over that was seen is {min(numbers)}; a match's first is taken to be"
            made.odd.append(f"{told} {first}, or write overs_from: {1 - first} under written")


def _words(made: Proposal, match_types: list[str]) -> None:
    """The table's words that are not ours, with ours where the trade has one for them."""
    for ours, guess in made.columns.items():
        codes = CODES.get(ours)
        if codes is None:
            continue
        known = {cell: codes.get(heard(cell)) for cell in guess.column.distinct}
        if not (ours == "innings" and guess.column.whole):
            told = {
                cell: TODO if word is None else word for cell, word in known.items() if word != cell
            }
            if told:
                made.values[ours] = told
    if "match_type" in made.columns and match_types:
        types = made.columns["match_type"].column
        strange = [cell for cell in types.distinct if cell not in match_types]
        if strange:
            made.values["match_type"] = {
                cell: f"{TODO}: one of {', '.join(match_types)}" for cell in strange
            }


def _ordered(made: Proposal) -> None:
    """The query of a database, with the order of its rows."""
    order = [_sorted_by(made, name) for name in ("match_id", "innings", "over", "ball")]
    order = [text for text in order if text]
    joined = made.head.joined
    if joined is None:
        return
    wickets = any(link.name == "wicket" for link in joined.links)
    if wickets and "delivery" not in made.columns and joined.key:
        column = next(c for c in made.head.columns if c.name == joined.key)
        made.columns["delivery"] = Guess("delivery", column, 1.0)
    last = _sorted_by(made, "delivery") or (
        joined.place(joined.key) if joined.key else f"{BASE}.rowid"
    )
    names = [guess.column.name for guess in made.columns.values()]
    made.query = joined.sql(names, [*order, last])


def _sorted_by(made: Proposal, ours: str) -> str:
    """A column to order by, as a number where it is one."""
    if ours not in made.columns or (ours == "ball" and made.columns[ours].column.decimals):
        return ""
    column, joined = made.columns[ours].column, made.head.joined
    name = joined.place(column.name) if joined else name_in_sql(column.name)
    return f"CAST({name} AS INTEGER)" if column.whole and ours != "match_id" else name
