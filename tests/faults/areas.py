"""The areas of the campaign: how one input of each is tried, and how many are."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from random import Random
from typing import NamedTuple

from tests.any_outcome import any_league, outcome
from tests.any_topics import any_topic
from tests.faults import bags, configuration, readers
from tests.faults.kills import Kills

Trial = Callable[[Random, Path], str]


class Area(NamedTuple):
    """`inputs` in about ten minutes on two cores; `full` when there is more time."""

    name: str
    trial: Trial
    inputs: int
    full: int
    longest: int = 120  # seconds that one input may take


def reading(area: str) -> Trial:
    return lambda rng, folder: readers.try_one(area, rng, folder)


@cache
def kills(folder: Path) -> Kills:
    """A project of this process's own, built once."""
    return Kills(folder / "project")


@cache
def league(folder: Path) -> Path:
    return any_league(folder / "league")


def topics(rng: Random, folder: Path) -> str:
    """A topic to its findings, and now and then to its page and its PDF."""
    text, far = any_topic(rng), rng.random()
    return outcome(league(folder), text, far < PAGES, far < PAPER)


PAGES, PAPER = 0.05, 0.005  # of the topics go on to words, charts and the page; to the PDF
BUILDS = 900  # seconds: a kill has several builds before it and after it
AREAS = (
    Area("match-json", reading("match-json"), 4_000, 16_000),
    Area("delivery-csv", reading("delivery-csv"), 1_500, 6_000),
    Area("table", reading("table"), 1_500, 6_000),
    Area("ball-tables", reading("ball-tables"), 1_500, 6_000),
    Area("zip", reading("zip"), 1_000, 6_000),
    Area("sheets and corrections", reading("sheets and corrections"), 2_000, 8_000),
    Area("captions and scripts", reading("captions and scripts"), 8_000, 42_000),
    Area("configuration", configuration.try_one, 1_000, 4_000),
    Area("bags", bags.try_one, 2_000, 10_000),
    Area("topics", topics, 300, 2_500),
    Area("kills of a build", lambda rng, folder: kills(folder).workflow(rng), 4, 64, BUILDS),
    Area("kills of a stage", lambda rng, folder: kills(folder).stage(rng), 4, 56, BUILDS),
    Area("kills of an archiving", lambda rng, folder: kills(folder).archive(rng), 4, 40, BUILDS),
    Area("kills of a preview", lambda rng, folder: kills(folder).preview(rng), 4, 40, BUILDS),
)
