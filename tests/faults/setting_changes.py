"""Changes at random of a configuration file, as bytes, lines, values or a tree."""

from __future__ import annotations

import random
from collections.abc import Callable
from copy import deepcopy
from typing import Any

from ruamel.yaml import YAML

ODD_BYTES = (
    b"\0",
    b"\x1b[2J",
    b"\x0b",
    b"\xff",
    b"\xef\xbb\xbf",
    b"\xe2\x80\xae",
    b"\xc2\x85",
    b"\t",
)


SCALARS = (
    *("", "~", "true", "False", "yes", "0", "-1", "-5", "1", "1.5", "1e9", "100000000", "9" * 5000),
    *("9" * 60, "1e999", ".inf", "-.inf", ".nan", "0x1F", "0b", "0o", "_", "1_0", "007", "12:30"),
    *("0000-00-00", "2017-02-30", "9999-12-31", "2017-03-01", "=", "<<", "{}", "[]", "[[economy]]"),
    *("!!int x", "!!bool maybe", "!!float ''", "!!python/object:os.system x", "!mine 3", "!!str 3"),
    *("!!set {a, b}", "!!omap [a: 1]", "!!binary x", "! 5", "*nobody", "&a 5", "&a [*a]", "{a: 1}"),
    *('"\\e[2J"', '"\\0"', '"\\ud800"', '"\\U00110000"', '"\\x"', '"\u202e"', "'\u200b'", "\u0660"),
    *("'<script>'", "'[x](javascript:1)'", "'a: b'", "'" + "x" * 3000 + "'", "|\n  a\n  b", "? a"),
    *("five seasons", "0 seasons", "5 overs", "0 overs", "1 over", "1-1000", "50-1", "[1, 2, 3]"),
    *("[1-6, 3-9]", "[[1, 6], [7, 2]]", "2012 to", "a to b", "0000-00-00 to 0000-00-01", "0 %"),
    *("5 points", "1" * 400 + " %", "0 balls", "3 balls", "False*four", "4*4", "four + nine"),
    *("four" + " + four" * 3000, "9" * 60 + "*four", "(" * 190 + "four" + ")" * 190, "-four"),
    *("four - six", "economy.x.y.z", "kinds", "../x", "/", ".", "a" * 5000, "'*'", "one-day"),
)


LINES = (
    *("---", "...", "%YAML 1.1", "%TAG ! x", "<<: *x", "<<: {a: 1}", "? [a]: b", "1: 2", "~: 3"),
    *(
        "\tx: 1",
        "- x",
        "x",
        "{",
        "[" * 600,
        "]",
        "a: &a {b: *a}",
        "'",
        '"',
        "| ",
        "# " + "x" * 9999,
    ),
    "a: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\n"
    "c: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]\nd: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c]\n"
    "e: &e [*d,*d,*d,*d,*d,*d,*d,*d,*d]\nlists: {f: [*e,*e,*e,*e,*e,*e,*e,*e,*e]}",
)


VALUES: tuple[Any, ...] = (
    *(None, True, False, 0, 1, -1, 3, 10**9, 10**60, 0.5, float("inf"), float("nan"), 1e300),
    *("", " ", "x", "economy", "all", "12", "é", "\u202eabc", "\u05d0\u05d1", "a\nb", "x" * 500),
    *([], {}, [[]], [{}], [None], [1, 2], ["a", "a"], {"a": {}}, {"1": 1}, {"kind": "mix"}),
)


LARGE = 20_000  # bytes that take too long to be read again and again


Tree = Any


def mutated(rng: random.Random, data: bytes) -> bytes:
    way = rng.choice((_bytes, _lines, _lines, _scalars, _scalars, _tree, _tree, _tree))
    for _ in range(rng.choice((1, 1, 1, 2, 4))):
        data = way(rng, data)
    return data


def _bytes(rng: random.Random, data: bytes) -> bytes:
    at = rng.randrange(len(data) + 1)
    match rng.randrange(5):
        case 0:
            return data[:at] + rng.choice(ODD_BYTES) + data[at:]
        case 1:
            return data[:at] + bytes([rng.randrange(256)]) + data[at + 1 :]
        case 2:
            return data[:at] + data[at + rng.randrange(1, 40) :]
        case 3:
            return data[:at]
    return data.decode("utf-8", "replace").encode(rng.choice(("utf-16", "utf-32-le", "utf-8-sig")))


def _lines(rng: random.Random, data: bytes) -> bytes:
    lines = data.decode("utf-8", "replace").split("\n")
    at = rng.randrange(len(lines))
    match rng.randrange(6):
        case 0:
            del lines[at]
        case 1:
            lines.insert(at, lines[at])
        case 2:
            lines[at] = "  " * rng.randrange(4) + lines[at].lstrip()
        case 3:
            other = rng.randrange(len(lines))
            lines[at], lines[other] = lines[other], lines[at]
        case 4:
            lines.insert(at, " " * rng.choice((0, 0, 2, 4)) + rng.choice(LINES))
        case 5:
            lines[at] = lines[at][: rng.randrange(len(lines[at]) + 1)]
    return "\n".join(lines).encode()


def _scalars(rng: random.Random, data: bytes) -> bytes:
    """One value of a line is another, as it might be written."""
    lines = data.decode("utf-8", "replace").split("\n")
    having = [at for at, line in enumerate(lines) if ": " in line]
    if having:
        at = rng.choice(having)
        parts = lines[at].split(": ")
        which = rng.randrange(1, len(parts))
        rest = parts[which]
        stop = min((rest.find(c) for c in ",}]" if c in rest), default=len(rest))
        parts[which] = rng.choice(SCALARS) + rest[stop:]
        lines[at] = ": ".join(parts)
    return "\n".join(lines).encode()


def _tree(rng: random.Random, data: bytes) -> bytes:
    """A part of the settings is another thing, is gone, stands twice, or is deep inside itself."""
    if len(data) > LARGE:
        return _lines(rng, data)
    try:
        tree = YAML(typ="safe", pure=True).load(data.decode("utf-8", "replace"))
    except Exception:
        return _lines(rng, data)
    if not isinstance(tree, (dict, list)) or not tree:
        return data
    holder, key = rng.choice(list(_places(tree)))
    way: Callable[[], None] = rng.choice(
        (
            lambda: holder.__setitem__(key, rng.choice(VALUES)),
            lambda: holder.__setitem__(key, [holder[key]]),
            lambda: holder.__setitem__(key, {"x": holder[key]}),
            lambda: holder.__setitem__(key, [holder[key]] * rng.choice((2, 3, 300))),
            lambda: holder.__setitem__(key, _deep(rng.choice((5, 30, 90)))),
            lambda: holder.__delitem__(key),
            lambda: holder.__setitem__(key, deepcopy(rng.choice(_values(tree)))),
        )
    )
    way()
    return _dumped(tree).encode("utf-8", "surrogatepass")


def _deep(levels: int) -> Tree:
    made: Tree = "x"
    for at in range(levels):
        made = [made] if at % 2 else {"x": made}
    return made


def _places(tree: Tree) -> list[tuple[Any, Any]]:
    items = list(tree.items()) if isinstance(tree, dict) else list(enumerate(tree))
    found = [(tree, key) for key, _ in items]
    for _, value in items:
        if isinstance(value, (dict, list)):
            found += _places(value)
    return found


def _values(tree: Tree) -> list[Any]:
    return [holder[key] for holder, key in _places(tree)]


def _dumped(value: Tree) -> str:
    """As JSON, which is YAML too; what JSON has no word for is written as YAML has it."""
    if isinstance(value, dict):
        inner = ", ".join(f"{_dumped(str(key))}: {_dumped(item)}" for key, item in value.items())
        return f"{{{inner}}}\n"
    if isinstance(value, list):
        return f"[{', '.join(map(_dumped, value))}]"
    if value is None:
        return "~"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float):
        return {"inf": ".inf", "-inf": "-.inf", "nan": ".nan"}.get(str(value), repr(value))
    if isinstance(value, int):
        return str(value)
    text = str(value).replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{text}"'
