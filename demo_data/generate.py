"""Generate the invented demo league: its tables, players, grounds and the README's table.

Run `python demo_data/generate.py`. The same seed gives the same files.
"""

import random
import sys
import zipfile
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from demo_data import effects, league, people, planted, truths
from demo_data.league import CLUBS, GROUNDS, REGION_OF_CLUB, Fixture
from demo_data.match import Match
from demo_data.people import Player, Squad
from demo_data.sides import Conditions, pick_side
from demo_data.skills import Skills, skills
from demo_data.tables import HEADERS, Played, csv_bytes, tables

FOLDER = Path(__file__).resolve().parent
ZIP_NAME = "tidewater-shield.zip"
MEMBERS = tuple(f"{name}.csv" for name in HEADERS)
ZIP_TIME = (2023, 1, 1, 0, 0, 0)
TABLE_START, TABLE_END = "<!-- planted:start -->", "<!-- planted:end -->"

# Incidents and in how many matches each happens.
INCIDENTS = {"tie": 2, "rain": 8, "no result": 3, "penalty pre": 1, "penalty post": 1}
# How often a reserve plays; together they bowl about 3 % of the balls, in either kind.
REST_CHANCE = {"pace": 0.16, "spin": 0.10}


@dataclass(frozen=True)
class League:
    """All that is drawn before the first ball."""

    players: list[Player]
    squads: dict[tuple[str, int], Squad]
    skills: Skills
    seasons: dict[int, float]
    grounds: dict[str, float]
    fixtures: list[Fixture]
    incidents: dict[str, str]


def build_league(rng: random.Random) -> League:
    """Draw people, effects and fixtures."""
    everyone = people.players(rng)
    squads = people.squads(everyone)
    skill = skills(rng, everyone)
    seasons = effects.season_effects(rng)
    grounds = effects.ground_effects(rng, CLUBS)
    fixtures = [f for season in planted.SEASONS for f in league.fixtures(rng, season)]
    incidents = [name for name, number in INCIDENTS.items() for _ in range(number)]
    chosen = rng.sample(fixtures, len(incidents))
    special = {f.match_id: name for f, name in zip(chosen, incidents, strict=True)}
    return League(everyone, squads, skill, seasons, grounds, fixtures, special)


def play_fixture(rng: random.Random, drawn: League, fixture: Fixture) -> Played:
    """Play one match under its season, ground and match effects."""
    season, home = fixture.season, fixture.home
    effect = effects.match_effect(rng) * drawn.seasons[season] * drawn.grounds[home]
    conditions = Conditions(season, REGION_OF_CLUB[home], effect, drawn.skills)
    home_side, away_side = (
        pick_side(rng, club, drawn.squads[club, season], REST_CHANCE)
        for club in (home, fixture.away)
    )
    special = drawn.incidents.get(fixture.match_id, "")
    return Match(rng, fixture, conditions, (home_side, away_side), special).play()


def play_league(rng: random.Random, drawn: League) -> list[Played]:
    """Play all matches in their order."""
    return [play_fixture(rng, drawn, fixture) for fixture in drawn.fixtures]


def contents(seed: int = planted.SEED) -> dict[str, bytes]:
    """Return every generated file but the README: the tables of matches, and both sheets.

    Compressed bytes may differ between machines; these contents may not.
    """
    rng = random.Random(seed)
    drawn = build_league(rng)
    files = tables(play_league(rng, drawn))
    files["players.csv"] = _players_csv(drawn.players)
    files["grounds.csv"] = _grounds_csv()
    return files


def match_members(seed: int = planted.SEED) -> dict[str, bytes]:
    """Return the members of the zip file."""
    files = contents(seed)
    return {name: files[name] for name in MEMBERS}


def _players_csv(everyone: list[Player]) -> bytes:
    rows = [
        (p.player_id, p.name, p.hand, p.style, p.tags)
        for p in sorted(everyone, key=lambda player: player.player_id)
    ]
    return csv_bytes([("id", "name", "batting_hand", "bowling_style", "tags"), *rows])


def _grounds_csv() -> bytes:
    rows = [
        (spelling, ground.name, ground.city, league.COUNTRY, ground.region, club)
        for club, ground in GROUNDS.items()
        for spelling in ground.spellings
    ]
    return csv_bytes([("venue", "ground", "city", "country", "region", "home"), *rows])


def write_zip(path: Path, members: dict[str, bytes]) -> None:
    """Write the members in order with a fixed date, so that a second run gives the same file."""
    with zipfile.ZipFile(path, "w") as archive:
        for name in sorted(members):
            info = zipfile.ZipInfo(name, ZIP_TIME)
            info.external_attr = 0o644 << 16
            archive.writestr(info, members[name], zipfile.ZIP_DEFLATED, compresslevel=9)


def write_table(readme: Path) -> None:
    """Put the table of planted effects between its two markers."""
    text = readme.read_text(encoding="utf-8")
    before, rest = text.split(TABLE_START)
    _, after = rest.split(TABLE_END)
    table = f"{TABLE_START}\n\n{truths.table()}\n\n{TABLE_END}"
    readme.write_text(before + table + after, encoding="utf-8")


def main() -> None:
    """Write all files of the demo league."""
    files = contents()
    members = {name: files.pop(name) for name in MEMBERS}
    write_zip(FOLDER / ZIP_NAME, members)
    for name, data in files.items():
        (FOLDER / name).write_bytes(data)
    write_table(FOLDER / "README.md")
    print(f"wrote {ZIP_NAME} ({', '.join(members)}), {', '.join(sorted(files))}")


if __name__ == "__main__":
    main()
