"""README.md: its commands run as they are written there, and the files it names exist.

A command of the README is either in RUN, and then typed into a built copy of the project, or in
ELSEWHERE with the reason why not here. One that is in neither fails.
"""

from __future__ import annotations

import csv
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.conftest import ROOT

README = (ROOT / "README.md").read_text("utf-8")
COMMAND = re.compile(r"make |\.venv/bin/|python -m pipeline")


@dataclass(frozen=True)
class Run:
    """How a command is run: what it must print, and what its capitals stand for."""

    prints: str
    stands_for: tuple[str, str] = ("", "")


# Patterns of whole commands; the first that fits counts.
RUN = {
    r"make brief": Run("output/long-grass/brief.pdf"),
    r"make doctor": Run("PDF libraries: pango and harfbuzz load"),
    r"make topic NAME=my-own": Run(r"\.venv/bin/snakemake my-own"),
    r"\.venv/bin/snakemake my-own": Run(r"brief\.pdf"),
    r"make topic NAME=the-rain FROM=long-grass": Run(r"\.venv/bin/snakemake the-rain"),
    r"\.venv/bin/snakemake the-rain": Run(r"brief\.pdf"),
    r"\.venv/bin/python -m pipeline compare long-grass the-rain": Run("Two questions, each answ"),
    r"\.venv/bin/snakemake NAME": Run("Nothing to be done", stands_for=("NAME", "sea-air")),
    r"make archive TOPIC=long-grass": Run("long-grass: edition 1"),
    r"\.venv/bin/python -m pipeline verify \S+": Run("whole: .* edition 1"),
    r"\.venv/bin/python -m pipeline compare \S+": Run("they say the same"),
    r"\.venv/bin/python -m pipeline grounds --accept-countries": Run("every ground .* its country"),
    r"\.venv/bin/python -m pipeline convert \S+ --to \S+": Run(r"deliveries\.csv: 325,800 rows"),
    r"make unlock": Run("unlocked; type make brief again"),
    r"\.venv/bin/python -m pipeline explain \S+": Run(r"the same as printed, and to nine digits"),
}
ELSEWHERE = {
    r"\.venv/bin/python -m pipeline look \S+": "test_look.py holds what it prints",
    r"\.venv/bin/python -m pipeline fetch \S+": "needs a server; test_fetch.py stands in for one",
    r"\.venv/bin/python -c \S+.*": "needs a network; what follows is in test_fetch.py",
    r"make brief CORES=1": "make brief with fewer stages at once",
    r"\.venv/bin/python -m pipeline correction \S+": "test_errata_command.py moves a number",
    r"\.venv/bin/python -m pipeline correction --edition \S+": "test_errata_command.py, too",
    r"\.venv/bin/python -m pipeline script-check .*": "test_script_stage.py writes what is checked",
    r"\.venv/bin/python -m pipeline preview \S+": "never ends; test_preview.py stops it",
    r"\.venv/bin/python -m pipeline rebuild \S+": "test_rebuild.py makes editions again",
    r"\.venv/bin/python -m pipeline script long-grass.*": "test_script.py keeps one, and moves it",
    r"make report": "test_picture.py makes the report",
    r"make test": "runs this file; continuous integration runs it in a fresh clone",
    r"make bench": "minutes, and its figures need a machine with nothing else to do",
    r"make faults FULL=1": "more than an hour; test_faults.py holds its committed results",
    r"make calibrate": "minutes; test_calibration.py holds its committed results",
}

# Outputs that a build alone does not make.
LATER = {
    "output/bench.json": "make bench",
    "output/archive/": "the first archived edition",
    "output/report.html": "make report",
    "config/topics/<topic>.script.md": "python -m pipeline script TOPIC --keep",
    "config/topics/<topic>.script.txt": "whoever writes a script",
    "config/topics/<topic>.vtt": "whoever has captions",
    "script-check.html": "a build of a topic with a script",
    "script-check.json": "a build of a topic with a script",
    "config/ledger/<topic>.csv": "python -m pipeline build",
}
ENDINGS = "csv|css|html|jinja|json|md|parquet|pdf|png|py|svg|ttf|txt|yaml|zip"
PATH = re.compile(rf"(?!\.)[\w.*<>-]+(?:/[\w.*<>-]*)+|[\w*<>-]+\.(?:{ENDINGS})")


def blocks() -> list[list[str]]:
    """The lines of the fenced blocks that name no language."""
    fenced = re.findall(r"^```(\w*)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
    return [text.splitlines() for language, text in fenced if not language]


def quoted() -> list[str]:
    """What stands in single backticks, outside the blocks."""
    prose = re.sub(r"^```.*?^```$", "", README, flags=re.MULTILINE | re.DOTALL)
    return re.findall(r"`([^`\n]+)`", prose)


def commands() -> list[str]:
    """Every command of the README once, without the remark behind it."""
    lines = [line for block in blocks() for line in block] + quoted()
    found = [re.split(r"\s+#", line)[0].strip() for line in lines if COMMAND.match(line)]
    return list(dict.fromkeys(found))


def paths() -> list[str]:
    """What is named as a file or folder."""
    return sorted({text for text in quoted() if PATH.fullmatch(text)})


def fitting(command: str, patterns: dict) -> str | None:
    return next((one for one in patterns if re.fullmatch(one, command)), None)


@pytest.fixture()
def project(built: Path, tmp_path: Path) -> Path:
    """A built copy in which the README's own words work: `make`, and this environment as .venv.

    The environment's parts are linked one by one into a folder of the copy's own, so that nothing
    done to .venv there reaches the environment itself.
    """
    folder = tmp_path / "project"
    shutil.copytree(built, folder, symlinks=True)
    shutil.copy(ROOT / "Makefile", folder)
    (folder / ".venv").mkdir()
    for part in ("bin", "lib", "pyvenv.cfg"):
        if (Path(sys.prefix) / part).exists():
            (folder / ".venv" / part).symlink_to(Path(sys.prefix) / part)
    (folder / ".venv" / "ready").touch()
    return folder


def typed(folder: Path, command: str) -> str:
    """What a command prints when it is typed in the folder; it must end well."""
    done = subprocess.run(
        command, shell=True, cwd=folder, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, f"{command}\n{done.stdout[-2000:]}{done.stderr[-2000:]}"
    return done.stdout + done.stderr


@pytest.mark.parametrize("command", commands())
def test_every_command_is_run_or_excused(command: str):
    assert fitting(command, RUN) or fitting(command, ELSEWHERE), f"'{command}' is in neither list"


@pytest.mark.parametrize("pattern", [*RUN, *ELSEWHERE])
def test_no_entry_outlives_its_command(pattern: str):
    assert any(re.fullmatch(pattern, command) for command in commands())


@pytest.mark.slow
def test_commands_do_what_they_are_there_for(project: Path):
    """Typed one after another in one project, in the README's order, as a reader would."""
    for command in filter(lambda one: fitting(one, RUN), commands()):
        how = RUN[fitting(command, RUN)]
        said = typed(project, command.replace(*how.stands_for))
        assert re.search(how.prints, said), (command, said[-2000:])


def test_a_block_without_a_language_has_commands_or_a_sheet():
    for block in blocks():
        if any(COMMAND.match(line) for line in block):
            assert all(COMMAND.match(line) for line in block if line.strip()), block
        else:
            widths = {len(row) for row in csv.reader(block)}
            assert len(widths) == 1 and widths != {1}, block


@pytest.mark.slow
@pytest.mark.parametrize("path", paths())
def test_every_file_it_names_is_there(built: Path, path: str):
    if path in LATER:
        assert not list(built.glob(path)), f"a build makes {path}; take it out of LATER"
        return
    pattern = re.sub(r"<\w+>", "*", path).rstrip("/")
    kept = [] if pattern.startswith("output/") else ROOT.glob(pattern)
    assert [*kept, *built.glob(f"**/{pattern}")], path
