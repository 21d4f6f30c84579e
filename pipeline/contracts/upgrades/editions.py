"""Of an edition: what it was made of, what it took from earlier ones, its corrections, settings."""

from __future__ import annotations

from typing import Any

from pipeline.contracts.upgrades.format_2 import merged_of_format_2

VIEWS = ("metrics", "significance", "charts", "brief")


def edition_of_format_0(found: Any) -> dict[str, Any]:
    """The same fields without a format's number."""
    return dict(found)


def inputs_of_format_0(found: Any) -> dict[str, Any]:
    """The same fields without a format's number."""
    return dict(found)


def fixes_of_format_0(found: Any) -> dict[str, Any]:
    """A bare list of corrections."""
    return {"corrections": found}


def around_of_format_0(found: Any) -> dict[str, Any]:
    """The number of the edition compared with stood among what differs from it."""
    since = found["since"]
    if since is None:
        return {**found, "since": None}
    difference = {name: value for name, value in since.items() if name != "edition"}
    return {**found, "since": {"edition": since["edition"], "difference": difference}}


def merged_of_format_0(found: Any) -> dict[str, Any]:
    """The stages' views of today: a beat names its `measure`, also where there are several."""
    views = {name: _view(found[name]) for name in VIEWS}
    # Which topics are built, and what editions keep, was left out of the brief's view.
    views["brief"]["project"] |= {"topics": "all", "archive": {"include_data": False}}
    return merged_of_format_2({"ingest": found["ingest"], "clean": found["clean"], **views})


def _view(view: dict[str, Any]) -> dict[str, Any]:
    return {**view, "beats": [_beat(beat) for beat in view["beats"]]}


def _beat(beat: dict[str, Any]) -> dict[str, Any]:
    """A share's measure is made from what it is `of`; a control is one, wherever it was named."""
    kept = {name: value for name, value in beat.items() if name != "measures"}
    if "of" not in beat:
        kept["measure"] = beat["measures"]
    if beat.get("control"):
        kept["control"] = {k: value for k, value in beat["control"].items() if k != "inherited"}
    return kept
