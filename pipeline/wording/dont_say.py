"""The tempting sentence that the data do not carry, and why not: the worst first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pipeline.wording import labels, numbers, second_verdict

View = dict[str, Any]


def dont_say(beat: View, mine: list[View], event: View | None, form: View) -> list[str]:
    """For a beat's findings; each line holds the temptation in quotes, then the reason."""
    return list(dict.fromkeys(_tempting(beat, mine, event, form)))


def _tempting(beat: View, mine: list[View], event: View | None, form: View) -> Iterator[str]:
    verdicts = {finding["verdict"] for finding in mine}
    if event and beat["kind"] != "groups" and "changed" in verdicts:
        yield f"“Because of {event['name']}.” {_not_because(mine)}"
    if beat["kind"] == "players" and len(mine) > 2:
        yield from _ranking(mine)
    if beat["kind"] == "gap":
        yield from _only_one(beat, mine, form)
    for finding in mine:
        if finding["kind"] == "share" and finding["verdict"] == "changed" and finding["change"]:
            yield _per_cent_of_a_share(finding)
            break
    if any(finding["about"] == "mix" and finding["verdict"] == "changed" for finding in mine):
        yield "“They did it better.” Part of the change is who did it, not how."
    if beat["kind"] == "groups" and "changed" in verdicts:
        yield "“Because they are different.” Other things differ between the groups too."
    if "can't tell" in verdicts:
        yield "“No difference.” The data can’t tell, which is not the same."
    if "held" in verdicts:
        yield "“Exactly the same.” It held within a margin set in advance."
    if beat["kind"] in ("before_after", "phases", "share") and len(verdicts) > 1 and len(mine) > 1:
        yield "“Only these rows changed.” Rows are judged one by one, not against another."


def _not_because(mine: list[View]) -> str:
    seconds = {second_verdict.second(finding) for finding in mine}
    if any(f["turn"] and f["turn"]["event"] and f["turn"]["event"]["inside"] for f in mine):
        return "A date that fits is not a cause."
    if second_verdict.IN_LINE in seconds:
        return "Some of it was on its way there anyway, and a step is not a cause."
    if second_verdict.BEYOND in seconds:
        return "There is a step at the date; what made it is not in the data."
    return "This compares two windows; it does not say why."


def _ranking(mine: list[View]) -> Iterator[str]:
    players = [f for f in mine if f["about"] == "player" and f["shrunk"]]
    if players and not any(finding["shrunk"]["apart"] for finding in players):
        yield "“The biggest loser was …” Nobody is told apart: the ends of a list are mostly luck."
    elif players:
        yield "“Top of the list.” The order inside the list is mostly luck; say who is told apart."


def _only_one(beat: View, mine: list[View], form: View) -> Iterator[str]:
    """One group changed, the other can't be called: that is no difference between them."""
    (cut,) = beat["between"]
    for gap in (finding for finding in mine if finding["about"] == "gap"):
        values = [{cut: group, **gap["values"]} for group in beat["between"][cut]]
        groups = [f for v in values for f in mine if f["values"] == v and f["about"] == "change"]
        verdicts = [finding["verdict"] for finding in groups]
        if gap["verdict"] != "changed" and sorted(verdicts) == ["can't tell", "changed"]:
            name = labels.value_label(cut, beat["between"][cut][verdicts.index("changed")], form)
            yield f"“Only {name} changed.” Changed here and can’t tell there is not a difference."
            return


def _per_cent_of_a_share(finding: View) -> str:
    way = "Up" if finding["change"] > 0 else "Down"
    size = numbers.shown(abs(finding["change"]) * 100, 0)
    return f"“{way} {size} per cent.” A share moves in points; per cent of a per cent misleads."
