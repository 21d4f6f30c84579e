"""The invented players: hands, bowling styles, careers and the squads they form."""

import random
from dataclasses import dataclass, replace

from demo_data import planted
from demo_data.league import CLUBS
from demo_data.names import ACCENTED, invented

# What the holder of each place in the batting order bowls; the others bat or keep wicket only.
BOWLS = {
    3: "spin",
    4: "pace",
    6: "spin",
    7: "pace",
    8: "spin",
    9: "pace",
    10: "pace",
    11: "pace",
}
POSITIONS = tuple(range(1, 12))
KEEPER, CAPTAIN = 5, 4
# Gaps in the yearbook: hands, styles of those who never bowl, and how often a tag is given.
HAND_UNKNOWN, STYLE_UNKNOWN, TAGGED = 0.02, 0.4, 0.8
# How many of the eight clubs have a left-hander there: 25 of 88 places. The three places with one
# more are such that left-handers meet each phase, and the tail's slower scoring, as others do.
LEFT_HANDERS = {position: 3 if position in (3, 5, 11) else 2 for position in POSITIONS}

STYLES = {
    "pace": (
        "Right arm Fast medium",
        "right-arm fast-medium",
        "Right arm Medium",
        "right-arm medium",
        "Right arm Medium fast",
        "Right arm Fast",
        "Left arm Medium",
        "left-arm fast-medium",
        "Right arm Medium, Right arm Offbreak",
    ),
    "spin": (
        "Right arm Offbreak",
        "right-arm off-break",
        "Slow left-arm orthodox",
        "Slow Left arm Orthodox",
        "Legbreak",
        "leg-break",
        "Legbreak googly",
        "Left arm Wrist spin",
        "Right arm Offbreak, Right arm Medium",
    ),
}


@dataclass(frozen=True)
class Player:
    """A player and her one career; `position` is 0 for a reserve."""

    player_id: str
    name: str
    club: str
    position: int
    first: int
    last: int
    hand: str
    kind: str | None
    style: str
    tags: str


@dataclass(frozen=True)
class Squad:
    """A club in one season: eleven regulars in batting order and a reserve bowler per kind."""

    regulars: tuple[Player, ...]
    reserves: dict[str, Player]


def players(rng: random.Random) -> list[Player]:
    """Invent every player of the fourteen seasons."""
    names = invented(rng)
    lefts = _left_handed_places(rng)
    people = [
        _regular(rng, next(names), club, position, (club, position) in lefts, span)
        for club in CLUBS
        for position in POSITIONS
        for span in _careers(rng, 5, 11)
    ]
    people += [
        _reserve(rng, next(names), club, kind, span)
        for club in CLUBS
        for kind in planted.KINDS
        for span in _careers(rng, 9, 14)
    ]
    return _with_namesakes(_with_accents(people))


def squads(people: list[Player]) -> dict[tuple[str, int], Squad]:
    """Return the squad of every club and season."""
    return {
        (club, season): _squad(
            [p for p in people if p.club == club and p.first <= season <= p.last]
        )
        for club in CLUBS
        for season in planted.SEASONS
    }


def _squad(members: list[Player]) -> Squad:
    regulars = sorted((p for p in members if p.position), key=lambda player: player.position)
    return Squad(tuple(regulars), {p.kind: p for p in members if p.kind and not p.position})


def _left_handed_places(rng: random.Random) -> set[tuple[str, int]]:
    """Draw which places are left-handed, spread evenly over positions and clubs.

    A place stays left-handed when its holder changes, so that hand never goes with position.
    """
    counts = dict.fromkeys(CLUBS, 0)
    places = set()
    for position, number in LEFT_HANDERS.items():
        fewest_first = sorted(CLUBS, key=lambda club: (counts[club], rng.random()))
        for club in fewest_first[:number]:
            counts[club] += 1
            places.add((club, position))
    return places


def _careers(rng: random.Random, shortest: int, longest: int) -> list[tuple[int, int]]:
    """Cut the seasons into careers; the first may have begun before the first season."""
    start = planted.FIRST_SEASON - rng.randrange(shortest)
    spans = []
    while start <= planted.LAST_SEASON:
        end = start + rng.randint(shortest, longest) - 1
        spans.append((max(start, planted.FIRST_SEASON), min(end, planted.LAST_SEASON)))
        start = end + 1
    return [span for span in spans if span[0] <= span[1]]


def _identifier(rng: random.Random) -> str:
    return f"{rng.getrandbits(32):08x}"


def _regular(
    rng: random.Random, name: str, club: str, position: int, left: bool, span: tuple[int, int]
) -> Player:
    kind = BOWLS.get(position)
    hand = "" if rng.random() < HAND_UNKNOWN else "left" if left else "right"
    style = rng.choice(STYLES[kind or rng.choice(planted.KINDS)])
    if kind is None and rng.random() < STYLE_UNKNOWN:
        style = ""
    return Player(
        _identifier(rng), name, club, position, *span, hand, kind, style, _tags(rng, position)
    )


def _tags(rng: random.Random, position: int) -> str:
    tags = {1: ["opener"], 2: ["opener"], KEEPER: ["keeper"], CAPTAIN: ["captain"]}
    chosen = [tag for tag in tags.get(position, []) if rng.random() < TAGGED]
    if position <= 2 and rng.random() < 0.1:
        chosen.append("captain")
    return ";".join(chosen)


def _reserve(rng: random.Random, name: str, club: str, kind: str, span: tuple[int, int]) -> Player:
    """Invent a stand-in: her style was never written down, her hand not always."""
    hand = rng.choices(("right", "left", ""), (0.6, 0.25, 0.15))[0]
    return Player(_identifier(rng), name, club, 0, *span, hand, kind, "", "")


def _with_accents(people: list[Player]) -> list[Player]:
    """Give accented names to the first players of the list."""
    renamed = [replace(p, name=name) for p, name in zip(people, ACCENTED, strict=False)]
    return renamed + people[len(renamed) :]


def _with_namesakes(people: list[Player]) -> list[Player]:
    """Give one name to two players of different clubs whose careers do not overlap."""
    half = planted.FIRST_SEASON + len(planted.SEASONS) // 2
    plain = people[len(ACCENTED) :]
    elder = next(p for p in plain if p.last < half)
    younger = next(p for p in plain if p.first >= half and p.club != elder.club)
    return [replace(p, name=elder.name) if p is younger else p for p in people]
