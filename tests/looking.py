"""A new user's way with a stranger's table: look, take the marks away, decide, read."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from pipeline.config.load import load_sources
from pipeline.contracts.files import read_json
from pipeline.contracts.quality import SourceReport
from pipeline.ingest.stage import ingest
from pipeline.look.command import look
from tests.conftest import ROOT
from tests.foreign_tables import EXTRAS, Ball, balls

FILLED = {
    "title": "Pebble Cup",
    "publisher": "Pebble Scorers",
    "licence": "CC0-1.0",
    "competition": "Pebble Cup",
    "gender": "female",
    "date_format": "DD/MM/YYYY",
}
FOUND = balls()


def stranger(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the configuration as it ships; the demo's files are there, and not read."""
    shutil.copytree(ROOT / "config", folder / "config")
    monkeypatch.chdir(folder)
    for source in declared():
        Path(source["path"]).parent.mkdir(parents=True, exist_ok=True)
        Path(source["path"]).touch()
    return folder


def declared() -> list[dict[str, Any]]:
    """The sources of the configuration, as plain data."""
    found: list[dict[str, Any]] = YAML(typ="safe").load(sources().read_text("utf-8"))["sources"]
    return found


def sources() -> Path:
    return Path("config/sources.yaml")


def taken(said: str) -> None:
    """The marks taken away by the command that is printed."""
    command = next(line.strip() for line in said.splitlines() if "sed -i" in line)
    subprocess.run(command, shell=True, check=True)


def decided(**more: str) -> None:
    """Every TODO written out, as a person does; `more` are words of the table's own."""
    lines = []
    for line in sources().read_text("utf-8").splitlines():
        key = line.partition(":")[0].strip().strip('"')
        if "TODO" in line:
            first = re.search(r"one of ([^,\"]+)", line)  # of the types that formats.yaml names
            line = (
                f"{line.partition(':')[0]}: {more.get(key) or (first or [0, FILLED.get(key)])[1]}"
            )
        lines.append(line)
    sources().write_text("\n".join(lines) + "\n", "utf-8")


def read(identity: str) -> SourceReport:
    ingest(load_sources()[identity], Path("made"))
    return read_json(Path("made/report.json"), SourceReport)


def counted(report: SourceReport) -> dict[str, int]:
    return {name: getattr(report, name) for name in ("matches", "deliveries", "runs", "wickets")}


def written(found: list[Ball], path: Path, names: dict[str, str], **marks: str) -> Path:
    """A CSV of some of our columns under their names; `marks`: delimiter and encoding."""
    mark = marks.get("mark", ",")
    rows = [names.values(), *([str(ball[ours]) for ours in names] for ball in found)]
    text = "\n".join(mark.join(row) for row in rows) + "\n"
    path.write_bytes(text.encode(marks.get("encoding", "utf-8")))
    return path


PLAIN = (
    *("match_id", "date", "season", "innings", "over", "batting_team", "bowling_team", "batter"),
    *("non_striker", "bowler", "runs_batter", *EXTRAS, "dismissal", "player_out"),
)
OWN = {name: name for name in PLAIN}


def proposal(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[str, dict[str, Any]]:
    """What is said, and the proposed source as data."""
    look(list(words))
    said = capsys.readouterr().out
    taken(said)
    return said, declared()[-1]
