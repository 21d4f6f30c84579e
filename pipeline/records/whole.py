"""Refuse outputs that are not as they were written: they may be neither sealed nor explained."""

from __future__ import annotations

from pathlib import Path

from pipeline.config.load import Config
from pipeline.editions.reading import MAKE
from pipeline.errors import Problem, UserError
from pipeline.records.state import damaged
from pipeline.records.steps import Step, Steps


def check_whole(config: Config, topic: str, out: Path, data: Path | None = None) -> None:
    """Every file that a topic rests on is as its stage wrote it, and made from those there now.

    Raises UserError naming the first that is not. `data` is the folder of the clean tables.
    """
    steps = Steps(config, out, data)
    _check([*steps.data(), *steps.topic(topic)], out, out / topic)


def check_data(config: Config, out: Path) -> None:
    """The same of the clean tables alone."""
    _check(Steps(config, out).data(), out, out / "data")


def _check(steps: list[Step], out: Path, folder: Path) -> None:
    if found := damaged(steps, out):
        first = found[0]
        raise UserError(Problem(first.file or str(folder), f"{first.because}; {MAKE}"))
