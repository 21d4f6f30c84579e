"""Builds, archiving and previews that are killed: nothing is lost, and each is told how to go on.

A small project is taken from one state to another and back. Every kill is made while its victim
works (a run that ended first counts for nothing), and afterwards every output is the old one or the
new one, whole. Then the same command is run again, and what it makes must be equal to what an
undisturbed run makes.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from random import Random
from typing import Any

from tests.small_project import TOPIC, TOPIC_FILE, command, edit, outputs, small_project

Run = subprocess.Popen[bytes]
Victims = Callable[[Run], list[int]]
QUIET: dict[str, Any] = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
TEXT: dict[str, Any] = {"capture_output": True, "text": True, "check": False}
TRIES, NOTHING = 20, "other: nothing could be killed"
STAGING, ARCHIVING, PREVIEWING = 0.7, 2.5, 2.0  # seconds within which a kill falls
STAGES = ("ingest", "clean", "metrics", "significance", "charts", "brief", "shelf")
BUILD = ("-m", "pipeline", "build")
# Everything that a stage can be made again by: raw files, sheets, settings and words.
STATES = (
    ("demo_data/players.csv", "id-cat,Cat Moor,,,", "id-cat,Cat Moor,left,Offbreak,"),
    ("config/sources.yaml", "on_error: stop", "on_error: quarantine"),
    (TOPIC_FILE, "title: A question", "title: Another question"),
)


class Kills:
    """A small project in a folder, with what each of its two states makes when left alone.

    `built` is such a project with its first state built, to be copied.
    """

    def __init__(self, folder: Path, built: Path | None = None) -> None:
        self.folder = Path(shutil.copytree(built, folder)) if built else small_project(folder)
        self.turned = False
        self.made: list[dict[str, bytes]] = []
        self.seconds = 0.0
        for turned in (False, True):
            if turned:
                self.turn()
            begun = time.monotonic()
            if turned or not built:
                _well(command(self.folder, "build"))
            self.seconds = time.monotonic() - begun
            self.made.append(outputs(self.folder))
        assert self.made[0] != self.made[1]

    def turn(self) -> None:
        self.turned = not self.turned
        for file, old, new in STATES:
            edit(self.folder / file, *((old, new) if self.turned else (new, old)))

    def workflow(self, rng: Random) -> str:
        """The build's first process, the engine, or all of it, at any moment."""
        victim = rng.choice(("first", "engine", "all"))
        return self._killed(rng, lambda run: _victims(run, victim))

    def stage(self, rng: Random) -> str:
        """One stage, while it works."""
        name = rng.choice(STAGES)
        return self._killed(rng, lambda _: list(processes(self.folder, name)), most=STAGING)

    def _killed(self, rng: Random, victims: Victims, most: float | None = None) -> str:
        for _ in range(TRIES):
            self.turn()
            if killed(self.folder, BUILD, rng, victims, most or self.seconds):
                break
            _well(command(self.folder, "build"))
        else:
            return NOTHING
        old, new = self.made[not self.turned], self.made[self.turned]
        return torn(outputs(self.folder), old, new) or self.goes_on(new)

    def goes_on(self, new: dict[str, bytes]) -> str:
        """'refused' where the next build asks for make unlock first, and then goes on."""
        again, told = command(self.folder, "build"), "ok"
        if again.returncode and "make unlock" in again.stderr:
            _well(command(self.folder, "build", "--unlock"))
            again, told = command(self.folder, "build"), "refused"
        if again.returncode:
            return f"other: can't go on: {again.stderr[-300:]}"
        return told if outputs(self.folder) == new else "other: not what an undisturbed run makes"

    def archive(self, rng: Random) -> str:
        """The sealing of an edition: it is there whole, or not at all, and the next one is made."""
        editions = self.folder / "output" / "archive" / TOPIC
        seal = ("-m", "pipeline.archive", "--topic", TOPIC, "--out", f"output/{TOPIC}")
        before = outputs(self.folder)
        for _ in range(TRIES):
            _remove(editions)
            if killed(self.folder, seal, rng, first, ARCHIVING):
                break
        else:
            return NOTHING
        again = subprocess.run([sys.executable, *seal], cwd=self.folder, **TEXT)
        there = sorted(path.name for path in editions.iterdir()) if editions.is_dir() else []
        whole = command(self.folder, "verify", str(editions))
        _remove(editions)
        if again.returncode or there != ["1"] or whole.returncode:
            return f"other: archive: {again.stderr[-200:]} {there} {whole.stdout[-200:]}"
        return "ok" if outputs(self.folder) == before else "other: outputs have changed"

    def preview(self, rng: Random) -> str:
        """A preview at work on its page: what was built stays, and the next preview is whole."""
        before, made = outputs(self.folder), self.folder / "output" / "preview"
        look = ("-m", "pipeline", "preview", TOPIC, "--once")
        for _ in range(TRIES):
            shutil.rmtree(made, ignore_errors=True)
            if killed(self.folder, look, rng, first, PREVIEWING):
                break
        else:
            return NOTHING
        again = command(self.folder, "preview", TOPIC, "--once")
        page = made / TOPIC / "brief.html"
        shown = page.read_bytes() if page.is_file() else b""
        shutil.rmtree(made, ignore_errors=True)
        if again.returncode or outputs(self.folder) != before:
            return f"other: preview: {again.stderr[-300:]}"
        return "ok" if shown == before[f"{TOPIC}/brief.html"] else "other: another page"


def torn(now: dict[str, bytes], old: dict[str, bytes], new: dict[str, bytes]) -> str | None:
    """What is missing or is neither the old file nor the new one."""
    for name in old:
        if name not in now:
            return f"other: {name} is lost"
        if now[name] not in (old[name], new[name]):
            return f"other: {name} is torn"
    return None


def processes(folder: Path, stage: str) -> Iterator[int]:
    """Processes of a stage that work in this folder."""
    for process in Path("/proc").glob("[0-9]*"):
        with suppress(OSError):
            words = (process / "cmdline").read_bytes().split(b"\0")
            if (
                os.readlink(process / "cwd") == str(folder)
                and f"pipeline.{stage}".encode() in words
            ):
                yield int(process.name)


def _victims(run: Run, which: str) -> list[int]:
    group = list(_group(run.pid))
    if which == "first":
        return [run.pid]
    if which == "all":
        return group
    return [each for each in group if b"snakemake" in _words(each)][:1]


def _group(leader: int) -> Iterator[int]:
    for process in Path("/proc").glob("[0-9]*"):
        with suppress(OSError, ValueError):
            state, _, group, *_ = (process / "stat").read_text().rpartition(")")[2].split()
            if int(group) == leader and state != "Z":
                yield int(process.name)


def _words(process: int) -> list[bytes]:
    with suppress(OSError):
        return Path(f"/proc/{process}/cmdline").read_bytes().split(b"\0")
    return []


def first(run: Run) -> list[int]:
    return [run.pid]


def killed(folder: Path, words: Sequence[str], rng: Random, victims: Victims, most: float) -> bool:
    """Run Python with these words, wait for a victim, then for up to `most` seconds, and kill it.

    Was one alive to be killed? Ends when all that was begun has ended: what survives its first
    process works on.
    """
    run = subprocess.Popen([sys.executable, *words], cwd=folder, start_new_session=True, **QUIET)
    hit = _kill(run, rng, victims, most)
    run.wait()
    while list(_group(run.pid)):
        time.sleep(0.02)
    return hit


def _kill(run: Run, rng: Random, victims: Victims, most: float) -> bool:
    while not victims(run):
        if run.poll() is not None:
            return False
        time.sleep(0.005)
    time.sleep(rng.uniform(0, most))
    hit = False
    for process in victims(run) if run.poll() is None else []:
        with suppress(ProcessLookupError):
            os.kill(process, signal.SIGKILL)
            hit = True
    return hit


def _well(done: subprocess.CompletedProcess[str]) -> None:
    assert done.returncode == 0, done.stderr[-2000:]


def _remove(folder: Path) -> None:
    """Editions are write-protected."""
    for top, _, _ in os.walk(folder):
        os.chmod(top, 0o700)
    shutil.rmtree(folder, ignore_errors=True)
