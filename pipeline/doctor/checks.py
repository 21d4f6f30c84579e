"""The checks, in the order in which they should be mended. None of them changes anything."""

from __future__ import annotations

import importlib.metadata
import os
import re
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from packaging.markers import Marker

from pipeline.brief.paper import SYSTEM_LIBRARIES, library
from pipeline.brief.print_faces import faulty_faces
from pipeline.build.leftovers import briefs
from pipeline.build.leftovers import told as told_of_leftovers
from pipeline.config.load import Config, load
from pipeline.config.topic_names import FOLDER, passed_over, topic_names
from pipeline.errors import UserError, told
from pipeline.ledger.book import FOLDER as LEDGERS
from pipeline.ledger.book import SUFFIX, read_ledger
from pipeline.provenance import LOCK
from pipeline.records.state import of_topic, stale
from pipeline.records.steps import Steps
from pipeline.voice.forms import read_voice, voice_file

OLDEST = (3, 11)
LEAST_SPACE = 1.0  # gigabytes
LIBRARIES = (
    *("snakemake", "duckdb", "pyarrow", "pandas", "numpy", "scipy", "matplotlib", "jinja2"),
    *("pydantic", "msgspec", "num2words", "weasyprint"),
)


class Finding(NamedTuple):
    """One check: is it well, what was found, and what to do when it is not."""

    name: str
    well: bool
    what: str
    mend: str = ""


def python(config: Path, output: Path) -> Iterator[Finding]:
    version = ".".join(map(str, sys.version_info[:3]))
    well = sys.version_info[:2] >= OLDEST
    yield Finding("Python", well, version, "install Python 3.11 or newer; make PYTHON=/path/to/it")


def libraries(config: Path, output: Path) -> Iterator[Finding]:
    """Each library at the version of the lock, and the PDF's system libraries."""
    locked = _locked()
    for name in LIBRARIES:
        try:
            version = importlib.metadata.version(name)
        except importlib.metadata.PackageNotFoundError:
            yield Finding(name, False, "not installed", "run make brief, which sets up .venv")
            continue
        wanted = locked.get(name, version)
        mend = f"the lock has {wanted}: delete .venv and run make brief"
        yield Finding(name, version == wanted, version, mend)
    try:
        library()
        yield Finding("PDF libraries", True, "pango and harfbuzz load")
    except UserError:
        yield Finding("PDF libraries", False, "they don't load", SYSTEM_LIBRARIES)


def faces(config: Path, output: Path) -> Iterator[Finding]:
    """The fonts that the PDF is set in: without one of them another face would stand in."""
    faults = faulty_faces()
    for fault in faults:
        yield Finding("print fonts", False, str(fault))
    if not faults:
        yield Finding("print fonts", True, "all there")


def _locked() -> dict[str, str]:
    """Versions of the lock that are meant for this Python and this system."""
    text = LOCK.read_text("utf-8") if LOCK.exists() else ""
    found = re.findall(r"^([a-z0-9_.-]+)==([^\s;\\]+)(?: *; *([^\\\n]+))?", text, re.MULTILINE)
    return {
        name: version
        for name, version, marker in found
        if not marker.strip() or Marker(marker.strip()).evaluate()
    }


def configuration(config: Path, output: Path) -> Iterator[Finding]:
    """Every mistake of the configuration, fonts and sources that are not there among them."""
    try:
        found = load(config)
    except UserError as error:
        for line in told(error):
            yield Finding("configuration", False, line, "mend that line")
        return
    topics = ", ".join(_named(found, topic) for topic in found.topics)
    over = passed_over(config / FOLDER)
    others = f"; passed over: {', '.join(over)}" if over else ""
    yield Finding("configuration", True, f"{len(found.topics)} topics ({topics}){others}")
    for name, source in found.sources.items():
        yield Finding(f"source {name}", True, source.path)


def voice(config: Path, output: Path) -> Iterator[Finding]:
    """Every mistake of the file with the forms of what is said."""
    try:
        told_forms = read_voice(voice_file())
    except UserError as error:
        for line in told(error):
            yield Finding("voice", False, line, "mend that line")
        return
    count = sum(map(len, told_forms.of.values()))
    yield Finding("voice", True, f"{count} forms of {len(told_forms.of)} things to say")


def ledgers(config: Path, output: Path) -> Iterator[Finding]:
    """Ledgers that can't be read, and those of topics that are no more."""
    folder = config / LEDGERS
    if not os.path.lexists(folder):
        return
    if not folder.is_dir():
        yield Finding("ledger", False, f"{folder} is no folder", "move it away")
        return
    topics = topic_names(config / FOLDER)
    files = sorted(folder.glob(f"*{SUFFIX}"))
    over = [path.name for path in files if path.stem not in topics]
    wrong = [line for path in files for line in _unread(path)]
    for line in wrong:
        yield Finding("ledger", False, line, "mend that file")
    if over:
        what = f"of topics that are no more: {', '.join(over)}"
        mend = f"delete it in {folder}, or give it the name that the topic has now"
        yield Finding("ledger", False, what, mend)
    if not (wrong or over):
        yield Finding("ledger", True, f"{len(files)} topics have one")


def _unread(path: Path) -> Iterator[str]:
    try:
        read_ledger(path)
    except UserError as error:
        yield from told(error)


def _named(config: Config, topic: str) -> str:
    """'long-grass', or 'rain like long-grass'."""
    return " like ".join((topic, *config.like[topic]))


def room(config: Path, output: Path) -> Iterator[Finding]:
    """A folder that can be written, with space."""
    place = output if output.exists() else output.absolute().parent
    well = os.access(place, os.W_OK)
    mend = "change its owner or its permissions"
    yield Finding("output", well, f"{output} {'can' if well else 'can’t'} be written", mend)
    free = shutil.disk_usage(place).free / 1e9
    what = f"{free:.1f} GB free"
    yield Finding("space", free >= LEAST_SPACE, what, f"a brief wants {LEAST_SPACE:g} GB")


def data(config: Path, output: Path) -> Iterator[Finding]:
    """Whether the data were read; that they were not is no fault."""
    built = (output / "data" / "deliveries.parquet").exists()
    yield Finding("data", True, "read" if built else "not read yet; make brief reads them")
    yield from _outputs(config, output)
    yield from _made(config, output)


def _made(config: Path, output: Path) -> Iterator[Finding]:
    """The briefs of today's topics, and what nothing reads any more."""
    try:
        found, left = briefs(config, output), told_of_leftovers(config, output)
    except UserError:
        return  # told above
    names = ", ".join(path.parent.name for path in found)
    yield Finding("briefs", True, names or "none yet; make brief makes them")
    if left:
        yield Finding("outputs", True, left)


def _outputs(config: Path, output: Path) -> Iterator[Finding]:
    """Topics whose files were changed by hand, cut short or not made to the end; those to make."""
    try:
        found = load(config)
    except UserError:
        return  # told above
    old = stale(Steps(found, output).all(), output)
    for topic in found.topics:
        first = of_topic(old, topic)
        if first and (first.file or first.failed):
            yield Finding(topic, False, first.because, "run make brief, which makes it again")
        else:
            yield Finding(topic, True, f"to be made: {first.because}" if first else "up to date")


CHECKS = (python, libraries, faces, configuration, voice, ledgers, room, data)
