"""Is what a step wrote still what its record says, and made from what is there now; if not, why."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from pipeline.batches import LIST, at_fault
from pipeline.contracts.files import read_json
from pipeline.contracts.made import Record, Unmade
from pipeline.errors import UserError
from pipeline.hashes import file_hash
from pipeline.ledger.book import read_ledger
from pipeline.ledger.today import as_counted
from pipeline.records.places import unmade_of
from pipeline.records.recording import left_unmade
from pipeline.records.steps import Step

OF_DATA = ("ingest", "clean")  # what every topic rests on


class Reason(NamedTuple):
    """Why; the output that was changed or taken away if it is that; did its stage fail."""

    why: str
    file: str | None = None
    failed: bool = False


class Stale(NamedTuple):
    """A step to be made again, with the fields of its reason."""

    step: Step
    why: str
    file: str | None = None
    failed: bool = False

    @property
    def because(self) -> str:
        """'charts of sea-air: output/sea-air/charts/rate.svg is gone'."""
        return f"{self.step.title}: {f'{self.file} ' if self.file else ''}{self.why}"


class _Hashes:
    """sha256 of outputs by their path below the folder of all outputs, each read once.

    A list of batches has one only while all that it names is as it was written.
    """

    def __init__(self, out: Path) -> None:
        self.out = out
        self._known: dict[str, str | None] = {}
        self._faults: dict[str, Path] = {}

    def of(self, name: str) -> str | None:
        """None where there is no such file."""
        if name not in self._known:
            path = self.out / name
            if path.name == LIST and path.is_file() and (fault := at_fault(path)):
                self._faults[name] = fault
            whole = path.is_file() and name not in self._faults
            self._known[name] = file_hash(path) if whole else None
        return self._known[name]

    def place(self, name: str) -> str:
        """The file to name when what `of` gives is not what was expected."""
        return str(self._faults.get(name, self.out / name))

    def names(self, paths: Sequence[str]) -> set[str]:
        return {Path(os.path.relpath(path, self.out)).as_posix() for path in paths}


Judge = Callable[[Step, _Hashes], Reason | None]


def stale(steps: Iterable[Step], out: Path | str) -> list[Stale]:
    """The steps whose outputs are not those of today's settings, code and inputs, in order.

    What is damaged is told before what is only out of date.
    """
    return _all(_up_to_date, steps, Path(out))


def damaged(steps: Iterable[Step], out: Path | str) -> list[Stale]:
    """The steps that did not end well, or whose files are not as they were written and read."""
    return _all(_whole, steps, Path(out))


def forget(steps: Iterable[Step], out: Path | str) -> list[Stale]:
    """Take away the records that no longer hold, so that the workflow makes those steps again.

    Why is kept beside it until the step is made. Where nothing can be written nothing is made.
    """
    found = stale(steps, out)
    for each in found:
        record = Path(each.step.record)
        with suppress(OSError):
            if record.is_file():
                why = each.because.removeprefix(f"{each.step.title}: ")
                left_unmade(record, each.step.stage, each.step.seen, False, [why])
                record.unlink()
    return found


def of_topic(found: Iterable[Stale], topic: str) -> Stale | None:
    """The first of them that a topic rests on."""
    return next((x for x in found if x.step.stage in OF_DATA or x.step.name == topic), None)


def _all(judge: Judge, steps: Iterable[Step], out: Path) -> list[Stale]:
    hashes = _Hashes(out)
    found = ((step, judge(step, hashes)) for step in steps)
    return [Stale(step, *reason) for step, reason in found if reason]


def _up_to_date(step: Step, hashes: _Hashes) -> Reason | None:
    if reason := _whole(step, hashes):
        return reason
    record = _read(Path(step.record))
    if record and record.seen != step.seen:
        return Reason("its settings, its code or its input files have changed")
    if step.ledger and not _counted(step.ledger, step.writes):
        return Reason(f"{step.ledger} has other lines than it counted")
    return None


def _counted(ledger: str, written: Sequence[str]) -> bool:
    """Whether the findings took from the ledger what is in it beside their own lines."""
    try:
        lines = read_ledger(ledger)
        return all(as_counted(Path(path), lines) for path in written)
    except UserError:
        return False  # the stage itself will say what is wrong with it


def _whole(step: Step, hashes: _Hashes) -> Reason | None:
    record = _read(Path(step.record))
    if record is None:
        return _unmade(step)
    for path in step.writes:
        if not Path(path).is_file():
            return Reason("is gone", path)
    for name, sha in record.wrote.items():
        if hashes.of(name) != sha:
            return Reason("is not as it was written", hashes.place(name))
    for name, sha in record.read.items():
        if hashes.of(name) != sha:
            return Reason(f"{hashes.place(name)} has changed since")
    if (set(record.wrote), set(record.read)) != tuple(map(hashes.names, (step.writes, step.reads))):
        return Reason("it reads or writes other files now")
    return None


def _unmade(step: Step) -> Reason:
    """What was left beside its record; else it was not begun, or ended from outside."""
    left = unmade_of(Path(step.record))
    if left.is_file():
        with suppress(UserError):
            said = read_json(left, Unmade)
            if not said.failed:
                return Reason(said.why[0])
            if said.seen == step.seen or not step.seen:  # else it failed of what is mended by now
                return Reason(f"it failed: {said.why[0]}", failed=True)
    if any(Path(path).exists() for path in step.writes):
        return Reason("there is no record of its making, or it was ended from outside", failed=True)
    return Reason("not made yet")


def _read(path: Path) -> Record | None:
    """The record, or None where there is none that can be read: then the step is made again."""
    if not path.is_file():
        return None
    try:
        return read_json(path, Record)
    except UserError:
        return None
