"""python -m tests.mutants: put small faults into the modules of rooms.py and try the tests on each.

Only modules whose code has changed since results.csv are tried, and those with a survivor that
explained.csv says nothing of, unless --only names others. With BUILT=FOLDER the demo that is built
there is used. With --tests, --most or --seed the results are told and not kept.
"""

from __future__ import annotations

import argparse
import signal
import sys
import time
from fnmatch import fnmatch
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.conftest import ROOT
from tests.mutants import campaign, results
from tests.mutants.copies import Copies, demo
from tests.mutants.mutate import SEED, mutants, sample
from tests.mutants.rooms import NothingMatches, files_of_tests, modules

MOST, CORES = 10, 2
PIPELINE = ROOT / "pipeline"


def main() -> None:
    options = _options()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))  # so that the copies are removed
    try:
        chosen = _chosen(options)
        files = options.tests or files_of_tests(ROOT / "tests")
        _forget_what_is_gone()
        if chosen:
            _try(chosen, files, options)
        _tell_what_is_left()
    except (NothingMatches, campaign.TestsFail) as error:
        sys.exit(str(error))


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    parser.add_argument("--only", metavar="PATTERN", help="as significance/v*.py: tried anyway")
    parser.add_argument("--tests", nargs="+", metavar="FILE", help="ask these only, to be quick")
    parser.add_argument("--most", type=int, default=MOST, help="mutants a module")
    parser.add_argument("--seed", type=int, default=SEED)
    return parser.parse_args()


def _chosen(options: argparse.Namespace) -> list[str]:
    """The modules to try: those that are named, or those that are not done with."""
    every = modules(PIPELINE)
    if options.only:
        found = [module for module in every if fnmatch(module, options.only)]
        if not found:
            raise NothingMatches(f"no module of the rooms is called {options.only}")
        return found
    codes = {module: results.code_of(_text(module)) for module in every}
    return results.to_try(codes, results.read(), results.explained())


def _text(module: str) -> str:
    return (PIPELINE / module).read_text("utf-8")


def _try(chosen: list[str], files: list[str], options: argparse.Namespace) -> None:
    texts = {name: _text(name) for name in chosen}
    found = {
        name: sample(mutants(name, text), options.most, options.seed)
        for name, text in texts.items()
    }
    begun = time.perf_counter()
    with (
        TemporaryDirectory(prefix="mutants-") as folder,
        Copies(Path(folder), demo(Path(folder) / "built"), CORES) as copies,
    ):
        tests = campaign.record(copies, files, PIPELINE)
        campaign.check_order(copies, tests, chosen[0], texts[chosen[0]])
        _say(f"{len(tests.seconds)} tests recorded ({time.perf_counter() - begun:.0f} s)")
        for tried in campaign.campaign(copies, texts, found, tests):
            if (options.tests, options.most, options.seed) == (None, MOST, SEED):
                _keep(tried.result)
            _tell(tried, texts[tried.result.module])
    _say(f"{sum(map(len, found.values()))} mutants in {time.perf_counter() - begun:.0f} s")


def _forget_what_is_gone() -> None:
    known, there = results.read(), modules(PIPELINE)
    if any(one.module not in there for one in known):
        results.write(one for one in known if one.module in there)


def _keep(new: results.Result) -> None:
    """Written as soon as a module is done, so that what was found is kept if this is ended."""
    results.write([new, *(one for one in results.read() if one.module != new.module)])


def _say(words: str) -> None:
    print(words, flush=True)


def _tell(tried: campaign.Tried, text: str) -> None:
    one = tried.result
    late = f", {tried.out_of_time} of them by time" if tried.out_of_time else ""
    _say(f"{one.module}: {one.killed} of {one.mutants} killed{late} ({tried.seconds:.0f} s)")
    lines = text.splitlines()
    for name in one.survivors:
        number = int(name.split(" ")[0].split(":")[1])
        untried = ", and no test calls it" if name in tried.untried else ""
        _say(f"  {name}{untried}\n      {lines[number - 1].strip()}")


def _tell_what_is_left() -> None:
    """What explained.csv lacks, and what it has of mutants that are no survivors any more."""
    known, why = results.read(), results.explained()
    if left := results.unexplained(known, why):
        _say(f"{len(left)} survivors want a test, or a line in {results.EXPLAINED.name}")
    if gone := results.outlived(known, why):
        _say(f"{results.EXPLAINED.name} has lines of what is no survivor any more; take them out:")
        for name in gone:
            _say(f"  {name}")


if __name__ == "__main__":
    main()
