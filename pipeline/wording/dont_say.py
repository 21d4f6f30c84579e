"""The tempting sentence that the data do not carry, and why not: the worst first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding, Turn
from pipeline.wording import numbers, of_kinds, second_verdict
from pipeline.wording.temptations import Rank, Temptation

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.project import Format


def dont_say(
    beat: AnyBeat, mine: Sequence[Finding], event: NamedEvent | None, form: Format
) -> list[str]:
    """For a beat's findings; each line holds the temptation in quotes, then the reason."""
    found = [*_of_any_kind(beat, mine, event), *of_kinds.tempting(mine, beat, form)]
    ranked = sorted(found, key=lambda temptation: temptation.rank)
    return list(dict.fromkeys(temptation.line for temptation in ranked))


def _of_any_kind(
    beat: AnyBeat, mine: Sequence[Finding], event: NamedEvent | None
) -> Iterator[Temptation]:
    verdicts = {finding.verdict for finding in mine}
    changed = [finding for finding in mine if finding.verdict == "changed"]
    if event and beat.traits.compares != "groups" and changed:
        yield Temptation(Rank.CAUSE, f"“Because of {event.name}.” {_not_because(changed)}")
    yield from list(_per_cent_of_a_share(mine))[:1]
    if "can't tell" in verdicts:
        line = "“No difference.” The data can’t tell, which is not the same."
        yield Temptation(Rank.VERDICT, line)
    if "held" in verdicts:
        line = "“Exactly the same.” It held within a margin set in advance."
        yield Temptation(Rank.VERDICT, line)


def _not_because(changed: Sequence[Finding]) -> str:
    """Why it is no cause of what changed; a row that did not change has no part in that."""
    seconds = {second_verdict.second(finding) for finding in changed}
    if any(_date_fits(finding) for finding in changed):
        return "A date that fits is not a cause."
    if any(second_verdict.was_on_its_way(finding) for finding in changed):
        return "Some of it was on its way there anyway, and a step is not a cause."
    if second_verdict.IN_LINE in seconds:
        return "A step beside the drift can’t be told from none, and a step is not a cause."
    if second_verdict.BEYOND in seconds:
        return "There is a step at the date; what made it is not in the data."
    return "This compares two windows; it does not say why."


def _date_fits(finding: Finding) -> bool:
    """Whether the event is inside the interval of the date that the data found."""
    if not isinstance(finding, Turn) or finding.turn is None or finding.turn.event is None:
        return False
    return finding.turn.event.inside


def _per_cent_of_a_share(mine: Sequence[Finding]) -> Iterator[Temptation]:
    for finding in mine:
        change = finding.effect.relative if finding.effect else None
        if finding.kind == "share" and finding.verdict == "changed" and change and change.value:
            way = "Up" if change.value > 0 else "Down"
            said = f"“{way} {numbers.shown(abs(change.value) * 100, 0)} per cent.”"
            line = f"{said} A share moves in points; per cent of a per cent misleads."
            yield Temptation(Rank.SCALE, line)
