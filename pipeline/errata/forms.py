"""All the ways in which a fact may have been said, each with what has to be said instead."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from typing import NamedTuple

from pipeline.errata.hearing import heard
from pipeline.errata.naming import which
from pipeline.errata.versions import Told
from pipeline.text import slug
from pipeline.wording import numbers, phrases
from pipeline.wording.scales import beyond, change_of
from pipeline.wording.values import unit_said, values_said

WAYS = ("up", "down", "more", "fewer")
_NEARLY = re.compile(r"^(?:about|nearly|just over) ")


class Form(NamedTuple):
    """What was said and what is right now, None when there is nothing to say instead.

    `right` when it may still be said so; `bare` is a number without its unit; `of` is what of its
    finding the fact is, '' of none.
    """

    old: str
    new: str | None
    right: bool
    bare: bool
    of: str


def pairs(old: Told, new: Told | None) -> list[Form]:
    """The forms of a fact as it was, with those of the same kind as it is."""
    was, now = forms(old), forms(new) if new else {}
    turned = new is not None and way(old) != way(new)
    found: dict[tuple[str, ...], Form] = {}
    for kind, words in was.items():
        instead = now.get("said" if kind == "core" else kind) or now.get("said")
        right = not turned and kind in now and now[kind] == words
        if turned and instead:
            instead = f"{instead} {way(new)}".rstrip()
        bare = kind.startswith("number")
        alike = tuple(word.text for word in heard(words))
        found.setdefault(alike, Form(words, instead, right, bare, which(old)))
    return list(found.values())


def way(told: Told) -> str:
    """The word that ends the spoken form and says which way it went, if one does."""
    last = told.fact["spoken"].rpartition(" ")[2]
    return last if last in WAYS else ""


def forms(told: Told) -> dict[str, str]:
    """Wordings by their kind; kinds that begin with 'number' have no unit."""
    found: dict[str, str] = {}
    if told.finding and not told.finding["refused"]:
        with suppress(KeyError):  # an edition of an earlier version may lack what a form needs
            for kind, words in _of_finding(told):
                found[kind] = words
    return found | dict(_of_fact(told))


def _of_fact(told: Told) -> Iterator[tuple[str, str]]:
    """As the fact itself has it: spoken and shown, with and without 'about'; no direction."""
    fact = told.fact
    said = fact["spoken"].removesuffix(f" {way(told)}") if way(told) else fact["spoken"]
    shown = fact["display"].lstrip(f"{numbers.MINUS}+")
    unit = fact["unit"].partition(",")[0]
    if said == numbers.said(fact["value"] or 0, 0):  # a count: its noun is in the unit alone
        yield "number said", said
        said = f"{said} {unit}"
    yield "said", said
    yield "core", _NEARLY.sub("", said)
    if not re.fullmatch(r"[\d.,]+", shown):
        yield "shown", shown
        return
    yield "number shown", shown
    yield "shown", f"{shown} {unit}"
    if told.measure and fact["unit"] == told.measure["unit"]:
        yield "shown shortly", f"{shown} {unit_said(told.measure)}"
    if unit.startswith("per cent "):
        yield "shown in per cent", f"{shown} per cent"


def _of_finding(told: Told) -> Iterator[tuple[str, str]]:
    """As the lines round it: by what the interval can bear, and the interval itself."""
    finding, part = told.finding, which(told)
    sides = [slug(side) for side in finding["sides"]]
    share = finding["kind"] == "share"
    if part in sides and finding["about"] != "gap":
        value = values_said(finding, told.measure)[sides.index(part)]
        yield "number rounded", value
        yield "rounded", numbers.with_unit(value, unit_said(told.measure))
        if unit_said(told.measure).startswith("per cent "):
            yield "rounded in per cent", f"{value} per cent"
    elif part == "difference":
        yield from _difference(told)
    if part == ("difference" if share else "change"):
        yield "interval", change_of(finding).reach()
        times = phrases.times_said(1 + finding["change"]) if finding["change"] else None
        if times:
            yield "times", f"{times} what it was"
    elif part == "beyond-control":
        yield "interval", beyond(finding["control"], finding["kind"]).reach()
    elif part == "luck-allowed-for":
        ends = (finding["shrunk"][end] * 100 for end in ("low", "high"))
        yield "interval", phrases.interval_said(*ends, "per cent")
    elif part.startswith("share-"):
        yield "number rounded", numbers.said(told.fact["value"], 0)
        yield "fraction", phrases.share_said(told.fact["value"] / 100)


def _difference(told: Told) -> Iterator[tuple[str, str]]:
    """A difference to what its interval can bear: of a share in points, of a mix in its unit."""
    finding = told.finding
    if finding["kind"] == "share":
        said = change_of(finding).said()
    else:
        half = (finding["difference_high"] - finding["difference_low"]) / 2
        most = told.measure["decimals"]
        said = phrases.size(finding["difference"], half, most, told.measure["unit"])
    yield "size", said
    yield "size alone", _NEARLY.sub("", said)
