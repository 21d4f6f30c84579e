"""The run sheet: beats in order with cue, opening line and time, sponsor slots, running total."""

from __future__ import annotations

import re
from typing import Any

from pipeline.wording import script

View = dict[str, Any]


def run_sheet(pages: list[View], sponsors: list[View]) -> View:
    """Rows of beats and slots; times at 160 words a minute, and the range from 180 to 150."""
    rows: list[View] = []
    total = fastest = slowest = spoken = 0
    for page in pages:
        lines = [line for part in page["parts"] for line in part["lines"]]
        count = sum(script.words(line) for line in lines)
        spoken += count
        usual, quick, slow = script.timing(count)
        total, fastest, slowest = total + usual, fastest + quick, slowest + slow
        rows.append(
            {
                "id": page["id"],
                "sponsor": None,
                "position": page["position"],
                "title": page["title"],
                "charts": [part["chart"]["chart"] for part in page["parts"]],
                "opening": opening(lines),
                "words": count,
                "time": script.clock(usual),
                "total": script.clock(total),
            }
        )
        for slot in (slot for slot in sponsors if slot["after"] == page["id"]):
            total, fastest, slowest = (sum_ + slot["seconds"] for sum_ in (total, fastest, slowest))
            rows.append(
                {
                    "id": None,
                    "sponsor": slot["say"] or "Sponsor",
                    "time": script.clock(slot["seconds"]),
                    "total": script.clock(total),
                }
            )
    return {
        "rows": rows,
        "words": spoken,
        "total": script.clock(total),
        "range": f"{script.clock(fastest)} to {script.clock(slowest)}",
        "rate": f"{script.RATE} words a minute",
        "rates": f"{script.FASTEST} to {script.SLOWEST}",
    }


def opening(lines: list[str]) -> str:
    """The first sentence of the first line; a beat may have none to say."""
    if not lines:
        return ""
    found = re.match(r".+?[.!?](?=\s|$)", lines[0])
    return found.group() if found else lines[0]
