"""python -m pipeline build [TARGET ...]: run the workflow; a second build waits for the first."""

from __future__ import annotations

import argparse
import fcntl
import os
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from pipeline.build.leftovers import briefs, told
from pipeline.build.looks import keep_looks
from pipeline.config.load import DEFAULT, load
from pipeline.config.topic_names import FOLDER, topic_names
from pipeline.errors import Problem, UserError
from pipeline.records.outputs import Files
from pipeline.records.state import stale
from pipeline.records.steps import Steps
from pipeline.terminal import say, say_aside

SNAKEFILE = Path("Snakefile")
MEMORY = Path(".snakemake")
OUTPUT = Path("output")
HELD = "building"
SUMS = ("ingest", "clean", "metrics")


def build(words: Sequence[str]) -> None:
    """Make the targets (everything, if none is named) that are not up to date.

    Data first, so that topics whose sums stay the same stop there; where all sums are up to date
    that run is left out. A script that alone is another is checked first, so that the brief stays
    where what it tells of the check stays.
    """
    parser = argparse.ArgumentParser(prog="python -m pipeline build", description=__doc__)
    parser.add_argument("targets", nargs="*", help="a topic, archive_TOPIC, ...; default: all")
    parser.add_argument("--cores", default="all", help="how many stages may run at once")
    parser.add_argument("--unlock", action="store_true", help="forget a build that was killed")
    parser.add_argument("--report", metavar="FILE", help="and say how everything was made")
    parser.add_argument("--briefs", action="store_true", help="and say where the PDFs are")
    options = parser.parse_args(words)
    if not SNAKEFILE.is_file():
        raise UserError(Problem(str(SNAKEFILE), "not here: go to the project's folder to build it"))
    try:
        with alone(wait=not options.unlock):
            if options.unlock:
                _run("--unlock")
                say("unlocked; type make brief again")
                return
            with _looks_kept():
                for part in _parts():
                    _run("--cores", options.cores, *part, "--", *options.targets)
            if options.report:
                _run("--report", options.report)
        _say_made(options.briefs)
    except KeyboardInterrupt:
        say_aside("interrupted: what was made stays, and make brief goes on from there")
        raise SystemExit(130) from None


def _say_made(pages: bool) -> None:
    """Where the PDFs of today's topics are, if asked; beside that what nothing reads any more."""
    for path in briefs(DEFAULT, OUTPUT) if pages else []:
        say(str(path))
    if left := told(DEFAULT, OUTPUT):
        say_aside(left)


@contextmanager
def _looks_kept() -> Iterator[None]:
    """Around a build: what an earlier one left out of the ledgers, and what this one looked at.

    That of the topics that were made is kept where others failed too.
    """
    topics = topic_names(DEFAULT / FOLDER)
    keep_looks(DEFAULT, OUTPUT, topics, date.today())
    try:
        yield
    finally:
        keep_looks(DEFAULT, OUTPUT, topics, date.today())


def _parts() -> list[list[str]]:
    """The runs of the engine, by their options; of mistakes the engine's own run tells.

    What stands below a stage is run again in the same run, whatever the stage wrote: so data first,
    and where scripts alone are to be checked, these.
    """
    both = [["--until", "metrics"], []]
    try:
        config = load(DEFAULT)
    except UserError:
        return both
    if not Path(Files(config, OUTPUT).record("clean", "")).is_file():
        return both  # without hashing raw files, which takes long where there are many
    left = {each.step.stage for each in stale(Steps(config, OUTPUT).all(), OUTPUT)}
    if not left.isdisjoint(SUMS):
        return both
    return [["--until", "script"], []] if left == {"script"} else [[]]


@contextmanager
def alone(wait: bool = True) -> Iterator[None]:
    """Hold the project for one build; the hold ends with the last process of it, however it ends.

    Raises UserError where folders can't be written, or somebody else builds and `wait` is false.
    """
    for folder in (MEMORY, OUTPUT):
        _check_writable(folder)
    handle = os.open(MEMORY / HELD, os.O_RDWR | os.O_CREAT, 0o644)
    os.set_inheritable(handle, True)
    try:
        _hold(handle, wait)
        yield
    finally:
        os.close(handle)


def _hold(handle: int, wait: bool) -> None:
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        return
    except BlockingIOError:
        if not wait:
            message = "a build is running here; wait for it, or end it first"
            raise UserError(Problem("make unlock", message)) from None
    say_aside("another build is running here: waiting for it to end")
    fcntl.flock(handle, fcntl.LOCK_EX)


def _check_writable(folder: Path) -> None:
    """Raises UserError naming the folder, where nothing can be written in it."""
    probe = folder / f".probe.{os.getpid()}"
    try:
        folder.mkdir(exist_ok=True)
        probe.write_bytes(b"?")
        probe.unlink()
    except OSError as error:
        message = f"can't be written ({error.strerror}); nothing was made. Mend its owner, its"
        raise UserError(Problem(str(folder), f"{message} permissions or the free space")) from None


def _run(*words: str) -> None:
    """The engine, quiet but for what stages print; ends with its exit status when that is not 0.

    An interrupt from the keyboard reaches the engine too, which is given the time to tidy up.
    """
    command, interrupted = [sys.executable, "-m", "snakemake", "--quiet", "all", *words], False
    with subprocess.Popen(command, close_fds=False) as engine:
        while engine.returncode is None:
            try:
                engine.wait()
            except KeyboardInterrupt:
                interrupted = True
    if interrupted:
        raise KeyboardInterrupt
    if engine.returncode:
        raise SystemExit(1)
