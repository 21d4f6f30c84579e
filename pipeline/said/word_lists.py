"""Words and phrases that patterns are made of, out of said/words/: there the words, here how."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent / "words"
FINITE = "finite_"
_LIST = re.compile(r"<([a-z_]+(?:\.[a-z_]+)*)>")
_DOUBLES = re.compile(r"[^aeiou]*[aeiou][bdgklmnprt]")  # 'slip', 'trim': 'slipped', 'trimmed'


@cache
def words(path: str) -> tuple[str, ...]:
    """The list of 'file.name' as it stands; verbs' lists hold all forms of each.

    Of 'finite_verbs' those without '-ing', which do nothing by themselves.
    """
    file, *names = path.split(".")
    found: Any = _file(file)
    finite = names[-1].startswith(FINITE)
    for name in names:
        found = found[name.removeprefix(FINITE)]
    listed = found.split() if isinstance(found, str) else found
    if re.search(r"[._]verbs$", path):
        listed = [form for verb in listed for form in forms(verb)]
    if finite:
        listed = [form for form in listed if not form.endswith("ing") or form == "bring"]
    return tuple(dict.fromkeys(listed))


@cache
def _file(name: str) -> Mapping[str, Any]:
    return tomllib.loads((FOLDER / f"{name}.toml").read_text("utf-8"))


def table(path: str) -> Mapping[str, Any]:
    """The table of 'file.name' as it stands."""
    file, name = path.split(".")
    found: Mapping[str, Any] = _file(file)[name]
    return found


@cache
def forms(verb: str) -> tuple[str, ...]:
    """'trim' is trim, trims, trimming, trimmed; those that no rule makes stand in verbs.toml."""
    ends_in_e, ends_in_y = verb.endswith("e"), re.search(r"[^aeiou]y$", verb)
    doubled = verb + verb[-1] if _DOUBLES.fullmatch(verb) else verb
    third = f"{verb[:-1]}ies" if ends_in_y else f"{verb}{_es(verb)}"
    past = f"{verb}d" if ends_in_e else f"{verb[:-1]}ied" if ends_in_y else f"{doubled}ed"
    others = _file("verbs")["irregular"].get(verb, past).split()
    return (verb, third, f"{verb[:-1] if ends_in_e else doubled}ing", *others)


def _es(verb: str) -> str:
    return "es" if re.search(r"(?:s|x|z|ch|sh)$", verb) else "s"


@cache
def pattern(template: str, file: str) -> re.Pattern[str]:
    """A regular expression in which '<name>' is any of that list of the file."""
    return re.compile(filled(template, file))


def filled(template: str, file: str, own: Mapping[str, str] | None = None) -> str:
    """The same as text; `own` are expressions of names that no file has."""

    def found(match: re.Match[str]) -> str:
        name = match[1]
        if own and name in own:
            return own[name]
        path = name if "." in name else f"{file}.{name}"
        home = path.partition(".")[0]
        return any_of(filled(one, home, own) for one in map(expression, words(path)))

    return _LIST.sub(found, template)


def any_of(expressions: Iterable[str]) -> str:
    """The longest first, so that no other is taken for it."""
    return f"(?:{'|'.join(sorted(expressions, key=len, reverse=True)) or '(?!)'})"


@cache
def expression(phrase: str) -> str:
    """A phrase of a list: '(a|b)' is either, '[x ]' may be left out."""
    return "".join(_pieces(phrase))


def _pieces(phrase: str) -> Iterator[str]:
    inside = False  # of a set of letters
    for at, sign in enumerate(phrase):
        if inside or sign not in "[]()":
            inside = inside and sign != "]"
            yield sign
        elif sign == "[" and phrase[at + 1 : at + 2] == "^":
            inside = True
            yield sign
        elif sign in "[(":
            yield "(" if sign == "(" and phrase[at + 1 : at + 2] == "?" else "(?:"
        else:
            yield ")?" if sign == "]" else ")"
