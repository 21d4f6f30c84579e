"""What only the page has: what stands behind each number, and the files an editor takes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pipeline.templating import data_uri
from pipeline.wording.provenance_lines import behind

View = dict[str, Any]
# What a frame's name ends in, and what it is called; larger ones and steps stay beside the page.
FRAMES = {
    "": "light",
    "dark": "dark",
    "clear": "transparent",
    "blind": "blind",
    "reveal": "blind, shown",
}


def on_screen(view: View, findings: View, charts: list[View], facts: list[View], out: Path) -> View:
    """The page's own parts. `out` is the topic's folder; facts are those the index lists."""
    return {
        "behind": _behind(view, findings, facts),
        "queries": findings["queries"],
        "known": {fact["id"] for fact in facts},
        "files": {chart["chart"]: list(_files(chart, out / "charts")) for chart in charts},
        "beside": {chart["chart"]: _beside(chart) for chart in charts},
    }


def _behind(view: View, findings: View, facts: list[View]) -> View:
    """By fact: its shown and said form, the pairs of `behind`, and the name of its query."""
    by_id = {finding["id"]: finding for finding in findings["findings"]}
    return {
        fact["id"]: {
            "shown": fact["display"],
            "said": fact["spoken"],
            "lines": list(
                behind(fact, by_id.get(fact["finding"]), view["measures"].get(fact["measure"]))
            ),
            "query": fact["query"],
        }
        for fact in facts
    }


def _files(chart: View, folder: Path) -> list[View]:
    """Frames at 1920x1080 and the data, as files inside the page."""
    name = chart["chart"]
    files = [
        {"label": label, "name": file, "href": data_uri(folder / file, "image/png")}
        for file in chart["frames"]
        if (label := FRAMES.get(_ending(name, file)))
    ]
    drawn = [("vector", f"{name}.svg", "image/svg+xml"), ("data", f"{name}.csv", "text/csv")]
    return files + [
        {"label": label, "name": file, "href": data_uri(folder / file, kind)}
        for label, file, kind in drawn
    ]


def _ending(chart: str, file: str) -> str:
    return file.removeprefix(chart).removesuffix(".png").lstrip(".")


def _beside(chart: View) -> int:
    """How many frames (4K, steps) lie in charts/ and not in the page."""
    return sum(_ending(chart["chart"], file) not in FRAMES for file in chart["frames"])
