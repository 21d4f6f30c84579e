"""The campaign: record who calls what, see that all pass without a fault, then put in each."""

from __future__ import annotations

import signal
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from tests.mutants.choose import SECONDS, Recorded, importers_of, recorded_of
from tests.mutants.copies import Copies
from tests.mutants.mutate import Mutant
from tests.mutants.results import Result, code_of
from tests.mutants.rooms import ALSO, WIDE

WHOLE = 900.0  # seconds a file of tests, or half of all tests, may take
GRACE, FACTOR = 10.0, 3.0  # seconds a mutant may take: FACTOR times its tests' own, and GRACE


class TestsFail(RuntimeError):
    """Tests fail without any fault put in: nothing they say of a mutant would be worth having."""


class Tried(NamedTuple):
    """A module's result; of its mutants those no test calls, and how many ran out of time."""

    result: Result
    seconds: float
    untried: frozenset[str]
    out_of_time: int


def record(copies: Copies, files: list[str], pipeline: Path) -> Recorded:
    """Every test's seconds and calls, from one run of each file."""
    wanted = (*ALSO, *WIDE)
    asked = [{"record": name, "wanted": wanted, "limit": WHOLE} for name in files]
    found: dict[str, Any] = {}
    for name, answer in zip(files, copies.ask(asked), strict=True):
        if answer["code"]:
            raise TestsFail(f"{name} fails without a fault put in:\n{answer['told']}")
        found |= {test: told for test, told in answer["tests"].items() if _calls(told)}
    return recorded_of(found, importers_of(pipeline), WIDE)


def _calls(told: dict[str, Any]) -> bool:
    return bool(told["calls"] or told["on_import"])


def check_order(copies: Copies, tests: Recorded, module: str, text: str) -> None:
    """Tests pass without a fault in the order mutants are tried in, many files together."""
    quick = [test for test in tests.seconds if tests.alone(test) <= SECONDS]
    ordered = sorted(quick, key=lambda test: (tests.alone(test), test))
    asked = [
        {"module": module, "text": text, "tests": ordered[part::2], "limit": WHOLE}
        for part in (0, 1)
        if ordered[part::2]
    ]
    for answer in copies.ask(asked):
        if answer["code"]:
            raise TestsFail(f"Tests fail in another order, without a fault:\n{answer['told']}")


def campaign(
    copies: Copies, texts: dict[str, str], found: dict[str, list[Mutant]], tests: Recorded
) -> Iterator[Tried]:
    """What became of each module's mutants, a module at a time."""
    every = [one for mutants in found.values() for one in mutants]
    chosen = {one.name: tests.of(one) for one in every}
    asked = [_request(one, chosen[one.name], tests) for one in every if chosen[one.name]]
    answers = copies.ask(asked)
    for module, mutants in found.items():
        begun = time.perf_counter()
        told = {one.name: next(answers)["code"] for one in mutants if chosen[one.name]}
        survivors = tuple(one.name for one in mutants if told.get(one.name, 0) == 0)
        killed = len(mutants) - len(survivors)
        result = Result(module, len(mutants), killed, survivors, code_of(texts[module]))
        late = sum(-code in (signal.SIGPROF, signal.SIGALRM) for code in told.values())
        untried = frozenset(one.name for one in mutants if not chosen[one.name])
        yield Tried(result, time.perf_counter() - begun, untried, late)


def _request(mutant: Mutant, chosen: list[str], tests: Recorded) -> dict[str, Any]:
    limit = GRACE + FACTOR * tests.together(chosen)
    return {"module": mutant.module, "text": mutant.text, "tests": chosen, "limit": limit}
