"""Claims of what stands beside a difference: its drift, its family, seasons, matches, a list."""

from __future__ import annotations

from collections.abc import Iterator

from pipeline.contracts.finding import Player, Turn, drift_of, felt_of
from pipeline.contracts.notes import FewMatches
from tests.claims import Claim, size, way
from tests.word_makers import EVENT

LEAST_BEFORE, LEAST_AFTER = 8, 3  # seasons, for a drift to be tested


def drift(claim: Claim) -> Iterator[str]:
    """'had been rising by about two per cent a season'."""
    drift = drift_of(claim.finding)
    slope = drift.test.slope if drift and drift.test else None
    if slope is None or way(claim.words["way"]) != slope.way:
        yield f"drifting {claim.words['way']}, of {slope}"
    elif "size" in claim.numbers:
        value = abs(slope.value) * 100
        yield from size(claim.numbers["size"], claim.words.get("about"), value)


def carried(claim: Claim) -> Iterator[str]:
    """What the drift alone would have come to."""
    if claim.of != "carried":
        return
    drift = drift_of(claim.finding)
    value = drift.test.expected.value * 100 if drift and drift.test else 0.0
    if way(claim.words["way"]) * value <= 0:
        yield f"carried on {claim.words['way']}, of {value}"
    yield from size(claim.numbers["size"], claim.words.get("about"), abs(value))


def family(claim: Claim) -> Iterator[str]:
    if claim.numbers["count"].value != claim.finding.family_size:
        yield f"one of {claim.numbers['count'].value}, of {claim.finding.family_size}"


def family_of_steps(claim: Claim) -> Iterator[str]:
    drift = drift_of(claim.finding)
    if drift is None or claim.numbers["count"].value != drift.family_size:
        yield f"one of {claim.numbers['count'].value} steps, of {drift}"


def matches(claim: Claim) -> Iterator[str]:
    """A count of matches is that of a note, or of a side that had too few."""
    finding, count = claim.finding, claim.numbers["count"].value
    noted = [note.matches for note in finding.notes if isinstance(note, FewMatches)]
    if count not in [*noted, finding.a.matches, finding.b.matches]:
        yield f"{count} matches"


def seasons(claim: Claim) -> Iterator[str]:
    drift, when = drift_of(claim.finding), claim.words["when"]
    least = LEAST_BEFORE if when == "before" else LEAST_AFTER
    known = getattr(drift, f"periods_{when}", None)
    said = (claim.numbers["count"].value, claim.numbers["least"].value)
    if said != (known, least) or not known or known >= least:
        yield f"{said} periods {when}, of {known}"


def date(claim: Claim) -> Iterator[str]:
    """Seasons of a turning point, each in its own place."""
    finding = claim.finding
    turn = finding.turn if isinstance(finding, Turn) else None
    second = turn.second if turn else None
    known = {
        **{"last": turn and turn.last, "next": turn and turn.next},
        **{"low": turn and turn.low, "high": turn and turn.high},
        **{"again": second and second.last, "again_next": second and second.next},
    }
    for name, number in claim.numbers.items():
        if str(int(number.value)) != known[name]:
            yield f"{number.value} as its {name}, of {known[name]}"


def names(claim: Claim) -> Iterator[str]:
    """Of a list of one player: how many are told apart from the others."""
    shrunk = claim.finding.shrunk if isinstance(claim.finding, Player) else None
    known = {"one": 1, "of": 1, "moved": int(bool(shrunk and shrunk.apart))}
    for name, number in claim.numbers.items():
        if number.value != known[name]:
            yield f"{number.value} names, of {known[name]}"


def mean(claim: Claim) -> Iterator[str]:
    """The mean of the players that one is held against."""
    shrunk = claim.finding.shrunk if isinstance(claim.finding, Player) else None
    value = shrunk.mean * 100 if shrunk else 0.0
    if way(claim.words["way"]) * value <= 0:
        yield f"a mean {claim.words['way']}, of {value}"
    yield from size(claim.numbers["size"], claim.words.get("about"), abs(value))


def part(claim: Claim) -> Iterator[str]:
    """What a mix did in the measure's own units."""
    value = claim.finding.told.difference.value
    if way(claim.words["way"]) * value <= 0:
        yield f"{claim.words['way']}, of {value}"
    yield from size(claim.numbers["size"], claim.words.get("about"), abs(value))


def twice(claim: Claim) -> Iterator[str]:
    times = 1 + claim.finding.told.change.value
    known = {"twice": 2, "three times": 3, "four times": 4, "half": 1 / 2, "a third of": 1 / 3}
    if not 0.9 < times / known[claim.words["times"]] < 1.1:
        yield f"{claim.words['times']}, of {times}"


def overs(claim: Claim) -> Iterator[str]:
    """Balls as overs: to the over, or to the ball where balls are said."""
    felt, balls = felt_of(claim.finding), claim.numbers.get("balls")
    said = claim.numbers["overs"].value * 6 + (balls.value if balls else 0)
    if felt is None or abs(abs(felt.value) - said) > (0.5 if balls else 3):
        yield f"{said} balls, of {felt}"


def dates(claim: Claim) -> Iterator[str]:
    turn = claim.finding.turn if isinstance(claim.finding, Turn) else None
    if turn is None or claim.numbers["dates"].value != turn.dates:
        yield f"{claim.numbers['dates'].value} dates, of {turn}"


def year(claim: Claim) -> Iterator[str]:
    if claim.numbers["year"].value != EVENT.date.year:
        yield f"the event in {claim.numbers['year'].value}"


def true(claim: Claim) -> Iterator[str]:
    """A number that is the rule's, not the finding's."""
    yield from ()


def felt(claim: Claim) -> Iterator[str]:
    found = felt_of(claim.finding)
    if found is None or way(claim.words["way"]) * found.value <= 0:
        yield f"{claim.words['way']} on the field, of {found}"
        return
    yield from size(claim.numbers["size"], claim.words.get("about"), abs(found.value))
    if "times" in claim.numbers and not claim.numbers["times"].near(found.times):
        yield f"over {claim.numbers['times'].value}, of {found.times}"
