"""What earlier editions said of numbers that are others now: whoever says one of them is late."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from pipeline.contracts.facts import EarlierFacts, Fact
from pipeline.editions.reading import VERIFY, read_facts
from pipeline.editions.store import editions


def earlier_facts(topic: str, facts: Sequence[Fact], archive: Path) -> list[EarlierFacts]:
    """Of each edition the facts that are shown, said or judged otherwise today, the newest first.

    Those that are no more are among them; an edition that says what is said today is left out.
    """
    today = {fact.id: _told(fact) for fact in facts}
    found = []
    for number in reversed(editions(archive / topic)):
        then = read_facts(archive / topic / str(number) / "data", VERIFY)
        moved = [fact for fact in then if _told(fact) != today.get(fact.id)]
        if moved:
            found.append(EarlierFacts(edition=f"{topic}/{number}", facts=moved))
    return found


def _told(fact: Fact) -> tuple[str, str, str | None]:
    return fact.display, fact.spoken, fact.verdict
