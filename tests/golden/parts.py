"""What was made of a topic as lines 'name = value', in parts that a failing test can name."""

from __future__ import annotations

import re
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec

from tests.golden.made import Made

DIGITS, FLOOR = 9, 1e-12  # two processors add in another order: later digits are not the tool's
FRACTION = re.compile(r"-?\d+\.\d+(?:e[-+]?\d+)?")
ROUNDED = {  # places of a pixel; digits of a number
    ".svg": lambda found: f"{float(found[0]):.3f}",
    ".csv": lambda found: f"{float(found[0]):.6g}",
}
LEFT_OUT = ("queries",)  # their numbers are here, and a query may be written in many ways


def parts(made: Made) -> dict[str, list[str]]:
    """Each part's lines; the hash of the tallies' file is left out wherever it is printed."""
    findings = msgspec.to_builtins(made.findings)
    hidden = findings["fingerprint"]
    found = {
        "findings": _findings(findings),
        "facts": [*_facts(made.facts), *_behind(made.facts, made.screen)],
        "chart words": _charts(made),
        "page": list(lines("", _page(made.content))),
        "talking points": made.points.splitlines(),
        "drawings": list(_drawings(made.folder)),
    }
    return {
        name: [line.replace(hidden, "FINGERPRINT").rstrip() for line in told]
        for name, told in found.items()
    }


def _charts(made: Made) -> list[str]:
    """What is told of each chart, and what its frame says below the title."""
    told = {
        chart.chart: {**msgspec.to_builtins(chart), "subtitle": said.subtitle, "foot": said.foot}
        for chart, said in zip(made.charts, made.framed, strict=True)
    }
    return list(lines("", told))


def _findings(findings: Any) -> list[str]:
    """What holds for the topic, then every finding under its id."""
    rest = {key: value for key, value in findings.items() if key not in ("findings", *LEFT_OUT)}
    each = {finding["id"]: finding for finding in findings["findings"]}
    return [*lines("", rest), *lines("", each)]


def _facts(facts: Any) -> Iterator[str]:
    """Two lines a fact: its number, and how it is written, said and judged."""
    for fact in msgspec.to_builtins(facts):
        told = [fact[key] or "-" for key in ("display", "spoken", "interval", "verdict")]
        yield from lines(fact["id"], fact["value"])
        yield f"{fact['id']}.words = {'; '.join(told)}"


def _behind(facts: Any, screen: Any) -> Iterator[str]:
    """What the page shows behind the numbers of headlines, a line a fact."""
    for fact in msgspec.to_builtins(facts):
        if fact["headline"]:
            told = screen.behind[fact["id"]]["lines"]
            yield f"{fact['id']}.behind = {'; '.join(f'{name}: {words}' for name, words in told)}"


def _page(content: Any) -> Any:
    """What the template prints: a line a row of a table; charts and facts, told above, by name."""
    page = msgspec.to_builtins(content, enc_hook=lambda model: model.model_dump(mode="json"))
    page["facts"] = {place["anchor"]: len(place["facts"]) for place in page["facts"]}
    for beat in page["beats"]:
        for part in beat["parts"]:
            part["chart"] = part["chart"]["chart"]
            part["rows"] = list(map(_row, part["rows"]))
    return page


def _row(row: Any) -> str:
    return "; ".join(lines("", {key: value for key, value in row.items() if key != "facts"}))


def _drawings(folder: Path) -> Iterator[str]:
    """A checksum a file, its fractions rounded far above what two processors differ by."""
    for path in sorted(folder.iterdir()):
        if path.suffix in (".svg", ".csv"):
            text = FRACTION.sub(ROUNDED[path.suffix], path.read_text("utf-8"))
            yield f"{path.name} = {sha256(text.encode()).hexdigest()[:16]}"


def lines(name: str, value: Any) -> Iterator[str]:
    """A value's lines: keys of what is nested joined by dots, what is empty left out."""
    value = msgspec.to_builtins(value)
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from lines(f"{name}.{key}" if name else str(key), inner)
    elif isinstance(value, (list, tuple)) and not all(map(_short, value)):
        for place, inner in enumerate(value, start=1):
            yield from lines(f"{name}.{place}", inner)
    elif isinstance(value, (list, tuple)):
        if value:
            yield f"{name} = {', '.join(map(plain, value))}"
    elif value is not None and value != "":
        yield f"{name} = {plain(value)}"


def _short(value: Any) -> bool:
    """Whether it stands in a line with others: a count or a word."""
    return isinstance(value, int) or (isinstance(value, str) and " " not in value)


def plain(value: Any) -> str:
    """A number to nine digits, one that is nought but for rounding as 0; else as Python has it."""
    if isinstance(value, float):
        return f"{value:.{DIGITS}g}" if abs(value) >= FLOOR else "0"
    return str(value).replace("\n", " / ")
