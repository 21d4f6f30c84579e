"""Is what a step wrote still what its record says, and made from what is there now; if not, why."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from pipeline.contracts.files import read_json
from pipeline.contracts.made import Failure, Record
from pipeline.errors import UserError
from pipeline.hashes import file_hash
from pipeline.records.places import failure_of
from pipeline.records.steps import Step

OF_DATA = ("ingest", "clean")  # what every topic rests on


class Reason(NamedTuple):
    """Why; the output that was changed or taken away if it is that; did its stage fail."""

    why: str
    file: str | None = None
    failed: bool = False


class _Hashes:
    """sha256 of outputs by their path below the folder of all outputs, each read once."""

    def __init__(self, out: Path) -> None:
        self.out = out
        self._known: dict[str, str | None] = {}

    def of(self, name: str) -> str | None:
        """None where there is no such file."""
        if name not in self._known:
            path = self.out / name
            self._known[name] = file_hash(path) if path.is_file() else None
        return self._known[name]


Judge = Callable[[Step, _Hashes], Reason | None]


class Stale(NamedTuple):
    """A step to be made again, with the fields of its reason."""

    step: Step
    why: str
    file: str | None = None
    failed: bool = False

    @property
    def because(self) -> str:
        """'charts of sea-air: output/sea-air/charts/rate.svg is gone'."""
        return f"{self.step.title}: {self.why}"


def stale(steps: Iterable[Step], out: Path | str) -> list[Stale]:
    """The steps whose outputs are not those of today's settings, code and inputs, in order."""
    return _all(_up_to_date, steps, Path(out))


def damaged(steps: Iterable[Step], out: Path | str) -> list[Stale]:
    """The steps that did not end well, or whose files are not as they were written and read."""
    return _all(_whole, steps, Path(out))


def forget(steps: Iterable[Step], out: Path | str) -> list[Stale]:
    """Take away the records that no longer hold, so that the workflow makes those steps again."""
    found = stale(steps, out)
    for each in found:
        with suppress(OSError):  # a folder that can't be written: nothing can be made there either
            Path(each.step.record).unlink(missing_ok=True)
    return found


def of_topic(found: Iterable[Stale], topic: str) -> Stale | None:
    """The first of them that a topic rests on."""
    return next((x for x in found if x.step.stage in OF_DATA or x.step.name == topic), None)


def _all(judge: Judge, steps: Iterable[Step], out: Path) -> list[Stale]:
    hashes = _Hashes(out)
    found = ((step, judge(step, hashes)) for step in steps)
    return [Stale(step, *reason) for step, reason in found if reason]


def _up_to_date(step: Step, hashes: _Hashes) -> Reason | None:
    record = _read(Path(step.record))
    if record and record.seen != step.seen:
        return Reason("its settings, its code or its input files have changed")
    return _whole(step, hashes)


def _whole(step: Step, hashes: _Hashes) -> Reason | None:
    record = _read(Path(step.record))
    if record is None:
        return _unmade(step)
    for path in step.writes:
        if not Path(path).is_file():
            return Reason(f"{path} is gone", path)
    for name, sha in record.wrote.items():
        if hashes.of(name) != sha:
            return Reason(f"{name} is not as it was written", name)
    for name, sha in record.read.items():
        if hashes.of(name) != sha:
            return Reason(f"{name} has changed since")
    return None


def _unmade(step: Step) -> Reason:
    """What its failure says, if it left one; else it was not begun, or ended from outside."""
    failure = failure_of(Path(step.record))
    if failure.is_file():
        with suppress(UserError):
            left = read_json(failure, Failure)
            if left.seen == step.seen:  # else it failed of something that was mended meanwhile
                return Reason(f"it failed: {left.problems[0]}", failed=True)
    if any(Path(path).exists() for path in step.writes):
        return Reason("it has not run to its end since something changed", failed=True)
    return Reason("not made yet")


def _read(path: Path) -> Record | None:
    """The record, or None where there is none that can be read: then the step is made again."""
    if not path.is_file():
        return None
    try:
        return read_json(path, Record)
    except UserError:
        return None
