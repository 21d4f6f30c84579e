"""Damage by chance: of bytes, of text, of plain data; the same for the same generator."""

from __future__ import annotations

import json
from copy import deepcopy
from random import Random
from typing import Any

HUGE = "9" * 5000
TEXTS = (
    *("", " ", "nan", "None", "NaN", "null", "-", "0", "-1", "1.0", "1.5", "007", "1e999", HUGE),
    *("99999999999999999999", "128", "32768", "65536", "2147483648", "1,000", "٣", "²", "½"),
    *(
        "a\nb",
        "a\r\nb",
        "a\rb",
        "a\x00b",
        "\x1b[2J",
        "\u202eevil",
        "\u2028",
        "\ufeffx",
        "é",
        "e\u0301",
    ),
    *(
        "2020-13-01",
        "0000-01-01",
        "0001-01-01",
        "9999-12-31",
        "10000-01-01",
        "2020-6-1",
        "20200601",
    ),
    *(
        "=1+1",
        "'quoted'",
        '"',
        '""',
        "a,b",
        "{x}",
        "{",
        "%s",
        "%",
        "a" * 200_000,
        "🏏",
        "../x",
        "/",
    ),
    *("true", "false", "True", "m1", "A Batt", "id-a", "Northmoor", "bowled", "retired hurt"),
)
VALUES = (
    *(None, True, False, 0, 1, -1, 6, 99, 100, 127, 128, 255, 256, 999, 1000, 32768, 2**31, 2**63),
    *(2**64, 1.5, -0.5, 1e308, [], {}, [[]], {"a": {}}, [None], [1], ["x", "x"], {"x": None}),
)
TOKEN = "@huge@"  # stands for a number that the writer of JSON would refuse


def odd_text(rng: Random) -> str:
    return rng.choice(TEXTS)


def odd_value(rng: Random) -> Any:
    """A number, a list, none, text; half a character, which only JSON can write; a huge number."""
    choice = rng.random()
    if choice < 0.04:
        return rng.choice(["\ud800", "x\udc00y", TOKEN])
    return deepcopy(rng.choice(VALUES)) if choice < 0.6 else odd_text(rng)


def damaged(data: bytes, rng: Random) -> bytes:
    """Some bytes flipped, cut, put in, doubled, or all in another encoding."""
    made = bytearray(data)
    for _ in range(rng.choice((0, 1, 1, 2, 5))):
        at = rng.randrange(len(made) + 1)
        way = rng.randrange(6)
        if way == 0 and at < len(made):
            made[at] ^= 1 << rng.randrange(8)
        elif way == 1:
            del made[at : at + rng.choice((1, 2, 20))]
        elif way == 2:
            made[at:at] = rng.choice(
                (b"\0", b"\xff", b"\n", b"\r", b",", b'"', b"\xef\xbb\xbf", b"9" * 50)
            )
        elif way == 3:
            made[at:at] = made[at : at + rng.randrange(1, 400)]
        elif way == 4 and rng.random() < 0.3:
            del made[at:]
        elif way == 5 and rng.random() < 0.1:
            encoding = rng.choice(("utf-16", "utf-32", "latin-1", "utf-7", "utf-8-sig"))
            return bytes(made).decode("utf-8", "replace").encode(encoding, "replace")
    return bytes(made)


def places(node: Any, at: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Every place in plain data, as the keys that lead there."""
    inner = (
        node.items()
        if isinstance(node, dict)
        else enumerate(node)
        if isinstance(node, list)
        else ()
    )
    found = [at] if at else []
    for key, value in inner:
        found += places(value, (*at, key))
    return found


def change_somewhere(tree: Any, rng: Random) -> None:
    """One place of plain data changed, dropped, doubled, renamed, or added to."""
    *way, key = rng.choice(places(tree))
    node = tree
    for step in way:
        node = node[step]
    what = rng.randrange(6)
    if what == 0:
        del node[key]
    elif what == 1 and isinstance(node, list):
        node.extend([node[key]] * rng.choice((1, 2, 130)))
    elif what == 2 and isinstance(node, dict):
        node[odd_text(rng)] = node.pop(key)
    elif what == 3 and isinstance(node, dict):
        node[odd_text(rng)] = odd_value(rng)
    else:
        node[key] = odd_value(rng)


def json_text(tree: Any, rng: Random) -> bytes:
    """The data as JSON; now and then a key stands twice."""
    text = json.dumps(tree, ensure_ascii=rng.random() < 0.9 or "\\ud" in json.dumps(tree))
    if rng.random() < 0.1:
        text = text.replace('"venue"', '"city": 5, "city"', 1)
    return text.replace(f'"{TOKEN}"', rng.choice((HUGE, f"-{HUGE}", "1e99999"))).encode(
        "utf-8", "replace"
    )
