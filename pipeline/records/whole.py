"""Refuse outputs that are not as they were written: they may be neither sealed nor explained."""

from __future__ import annotations

from pathlib import Path

from pipeline.config.load import Config
from pipeline.editions.reading import MAKE
from pipeline.errors import Problem, UserError
from pipeline.records.state import Stale, damaged
from pipeline.records.steps import Steps


def check_whole(config: Config, topic: str, out: Path, data: Path | None = None) -> None:
    """Every file that a topic rests on is as its stage wrote it, and made from those there now.

    Raises UserError naming the first that is not. `data` is the folder of the clean tables.
    """
    steps = Steps(config, out, data, seen=False)
    _refuse(damaged([*steps.data(), *steps.topic(topic)], out), out / topic)


def check_numbers(config: Config, topic: str, out: Path) -> None:
    """The same of what its numbers rest on: charts and pages are not asked about."""
    steps = Steps(config, out, seen=False)
    asked = [*steps.data(), steps.metrics(topic), steps.significance(topic)]
    _refuse(damaged(asked, out), out / topic)


def check_data(config: Config, out: Path) -> None:
    """No clean table was changed or cut short since it was written; who wrote it is not asked."""
    found = damaged(Steps(config, out, seen=False).data(), out)
    _refuse([one for one in found if one.file], out / "data")


def _refuse(found: list[Stale], folder: Path) -> None:
    if found:
        first = found[0]
        place = first.file or str(folder)
        raise UserError(Problem(place, f"{first.why} ({first.step.title}); {MAKE}"))
