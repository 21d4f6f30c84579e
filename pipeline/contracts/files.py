"""Contracts as JSON files: written with the number of their format, checked when they are read."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import msgspec

from pipeline.contracts.base import Contract
from pipeline.contracts.upgrades.format_1 import findings_of_format_1
from pipeline.contracts.upgrades.format_2 import (
    findings_of_format_2,
    merged_of_format_2,
    selection_of_format_2,
)
from pipeline.digits import rounded
from pipeline.errors import Problem, UserError, write_atomically

Kind = TypeVar("Kind", bound=Contract)
Upgrade = Callable[[Any], dict[str, Any]]
FORMAT = 3  # of every file of ours; what came before format 1 had none, and is format 0
# What a format had otherwise than the next, by the type's name; all other files are as they were.
THEN: dict[int, dict[str, Upgrade]] = {
    1: {"Findings": findings_of_format_1},
    2: {
        "Findings": findings_of_format_2,
        "Selection": selection_of_format_2,
        "Merged": merged_of_format_2,
    },
}


def as_json(content: Contract) -> str:
    """The text of a file: the format's number, then the fields in their order."""
    plain = {"format": FORMAT, **rounded(msgspec.to_builtins(content))}
    return json.dumps(plain, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def write_contract(path: Path, content: Contract) -> None:
    """The file, replaced at once."""
    write_atomically(path, as_json(content))


def as_written(content: Kind) -> Kind:
    """The same as it would be read from its file: with its fractions rounded."""
    return msgspec.convert(rounded(msgspec.to_builtins(content)), type(content))


def read_json(
    path: Path, kind: type[Kind], mend: str = "run make brief", upgrade: Upgrade | None = None
) -> Kind:
    """The file as its type. `upgrade` turns format 0 into today's fields.

    Raises UserError naming the file, what is wrong in it and what to do.
    """
    try:
        found = plain_data(path.read_text("utf-8"))
    except OSError as error:
        raise UserError(Problem(str(path), f"can't be read ({error.strerror}); {mend}")) from None
    except ValueError as error:
        raise UserError(Problem(str(path), f"not readable JSON ({error}); {mend}")) from None
    return checked(found, kind, str(path), mend, upgrade)


def plain_data(text: str) -> Any:
    """JSON as data. Raises ValueError for text that is none, or that could not be written again."""
    try:
        found = json.loads(text, parse_constant=_no_number)
        if "\\u" in text:
            json.dumps(found, ensure_ascii=False).encode()  # half a character can't be
    except RecursionError:
        raise ValueError("lists or objects within one another, too many to be read") from None
    return found


def _no_number(word: str) -> Any:
    raise ValueError(f"{word} is no number that JSON knows")


def checked(
    found: Any, kind: type[Kind], file: str, mend: str, upgrade: Upgrade | None = None
) -> Kind:
    """Plain data as a type; `file` is named in what is raised."""
    number = found.get("format", 0) if isinstance(found, dict) else 0
    if number == 0 and upgrade:
        fields = _upgraded(found, upgrade, file, mend)
    elif type(number) is int and 1 <= number <= FORMAT:
        fields = {name: value for name, value in found.items() if name != "format"}
        for then in range(number, FORMAT):
            if of_then := THEN.get(then, {}).get(kind.__name__):
                fields = _upgraded(fields, of_then, file, mend)
    else:
        message = f"format {number!r}, and this version reads {FORMAT}; {mend}"
        raise UserError(Problem(file, message))
    try:
        return msgspec.convert(fields, kind, strict=True)
    except (msgspec.ValidationError, ValueError, TypeError, RecursionError) as error:
        raise UserError(Problem(file, f"not what it should hold: {error}; {mend}")) from None


def _upgraded(found: Any, upgrade: Upgrade, file: str, mend: str) -> dict[str, Any]:
    """The fields of an older format; a file that is none of ours lacks what they are made from."""
    try:
        return upgrade(found)
    except KeyError as error:
        message = f"not what an older version wrote: it lacks {error}; {mend}"
    except (TypeError, AttributeError, IndexError, ValueError, RecursionError) as error:
        message = f"not what an older version wrote: {error}; {mend}"
    raise UserError(Problem(file, message))
