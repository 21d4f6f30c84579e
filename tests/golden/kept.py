"""The files beside this module: how they are read and written, and how they differ from now."""

from __future__ import annotations

import math
from difflib import unified_diff
from pathlib import Path

HERE = Path(__file__).parent
HEAD = "======== "
MOST = 60  # lines of a difference that anybody reads
COMMAND = "make golden"
Parts = dict[str, list[str]]


def file_of(topic: str) -> Path:
    return HERE / f"{topic}.txt"


def write(topic: str, parts: Parts) -> None:
    told = [line for name, part in parts.items() for line in (f"{HEAD}{name}", *part)]
    file_of(topic).write_text("\n".join([*told, ""]), "utf-8")


def read(topic: str) -> Parts:
    parts: Parts = {}
    told: list[str] = []
    for line in file_of(topic).read_text("utf-8").splitlines():
        if line.startswith(HEAD):
            told = parts.setdefault(line.removeprefix(HEAD), [])
        else:
            told.append(line)
    return parts


def difference(topic: str, part: str, kept: list[str], now: list[str]) -> str:
    """A unified difference and what to do; '' where nothing moved but last digits."""
    if kept == (now := _settled(kept, now)):
        return ""
    name = f"tests/golden/{topic}.txt, {part}"
    found = list(unified_diff(kept, now, name, f"{name} now", n=1, lineterm=""))
    more = [f"... and {len(found) - MOST} lines more"] if len(found) > MOST else []
    advice = f"If every line of this is meant: {COMMAND}, and commit the files with the change."
    return "\n".join([f"{topic}: {part} moved.", *found[:MOST], *more, advice])


def _settled(kept: list[str], now: list[str]) -> list[str]:
    """The lines of now, as they were kept where only the ninth digit of a number differs."""
    before = dict(line.split(" = ", 1) for line in kept if " = " in line)
    return [_as_kept(line, before) for line in now]


def _as_kept(line: str, before: dict[str, str]) -> str:
    name, equals, value = line.partition(" = ")
    old = before.get(name)
    if equals and old is not None and old != value and _close(old, value):
        return f"{name} = {old}"
    return line


def _close(one: str, other: str) -> bool:
    try:
        return math.isclose(float(one), float(other), rel_tol=2e-8, abs_tol=1e-12)
    except ValueError:
        return False
