"""What the data lack for a fuller topic, each with how it is mended."""

from __future__ import annotations

from pathlib import Path

from pipeline.new_topic.proposed import LEAST_BALLS, Asked, Proposal
from pipeline.wording import numbers

LISTED = 5  # of what else the data hold
BARELY = 0.5  # under this share known, a kind of bowler stands for few of its balls


def missing(proposal: Proposal, sheet: str | None, data: Path, least: int) -> list[str]:
    """Sentences; none where nothing is. `sheet` is the players' sheet of the project, `data` the
    folder of clean tables, `least` the matches that an interval needs in each window.
    """
    return [
        *_of_seasons(proposal),
        *_of_styles(proposal, sheet, data),
        *_of_matches(proposal, least),
        *([] if proposal.innings else ["No second innings is in these data."]),
    ]


def _of_seasons(proposal: Proposal) -> list[str]:
    if proposal.date:
        return []
    lack = (
        "There is one season of it"
        if proposal.after == 1
        else "Its seasons overlap, so that no day has a whole season before it and one after it"
    )
    return [
        f"{lack}: no event can be asked about by seasons. Add matches of other seasons, or give "
        "the event two stretches of days (before: 2012-04-01 to 2016-09-30)."
    ]


def _of_styles(proposal: Proposal, sheet: str | None, data: Path) -> list[str]:
    fill = data / "players-to-fill.csv"
    mend = f"fill bowling_style in {sheet} (who to begin with: {fill}), then make brief"
    if sheet is None:
        mend = f"name a sheet as players in project.yaml, {mend.replace(' in None', ' in it')}"
    share = numbers.percent(proposal.known, 0, signed=False)
    if not proposal.known:
        return [f"Who bowls pace and who spin is not known: {mend}."]
    if not proposal.kind:
        few = f"Of under {LEAST_BALLS} balls of spin, or of pace, is the kind of bowler known"
        where = " in a window" if proposal.date else ""
        return [f"{few}{where} ({share} of all balls): {mend}."]
    if proposal.known < BARELY:
        return [f"The kind of bowler is known of {share} of the balls only: {mend}."]
    return []


def _of_matches(proposal: Proposal, least: int) -> list[str]:
    if min(proposal.matches) >= least:
        return []
    told = [numbers.matches(count) for count in proposal.matches]
    where = f"{told[0]} before the event and {told[-1]} after it" if proposal.date else told[0]
    return [
        f"There are {where}; under {least} there is no interval, and the brief says so. "
        "Add matches."
    ]


def chosen(proposal: Proposal) -> str:
    """Why it asks about this: 'It asks about Pebble Cup, one-day. The data also hold ...'."""
    others = [f"{named(asked)} ({numbers.matches(count)})" for asked, count in proposal.others]
    more = [f"{len(others) - LISTED} more"] if len(others) > LISTED else []
    also = f" The data also hold {'; '.join([*others[:LISTED], *more])}." if others else ""
    return f"It asks about {named(proposal.asked)}.{also}"


def named(asked: Asked) -> str:
    """'Pebble Cup, one-day, female'; of a competition without a name its source."""
    first = asked.competition or (f"source {asked.source}" if asked.source else "all matches")
    return ", ".join(filter(None, (first, asked.format, asked.gender)))
