"""The ledger through real builds: what adds a line and what does not, and what a brief says."""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.config.load import load
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.ledger.book import ledger_of, read_ledger
from pipeline.records.state import stale
from pipeline.records.steps import Steps
from tests.conftest import snakemake
from tests.small_project import TOPIC, TOPIC_FILE, command, edit, outputs, small_project

pytestmark = pytest.mark.slow
SAID = "the second version of this question; one other pair of windows was tried"
HEAD = "before: 3 seasons, after: 3 seasons"
OTHER = "before: 2 seasons, after: 3 seasons"


def built(folder: Path, *targets: str) -> Findings:
    """The topic's findings after a build that went well, with nothing left to be made."""
    done = command(folder, "build", *targets)
    assert done.returncode == 0, done.stderr
    return read_json(folder / "output" / TOPIC / "findings.json", Findings)


def windows(folder: Path) -> list[str]:
    """Of each line of the ledger, the seasons before."""
    lines = read_ledger(ledger_of(folder / "config", TOPIC))
    assert {line.role for line in lines} <= {"headline"}
    return ["+".join(line.asks.sides[0]) for line in lines if line.asks.sides]


def test_builds_keep_their_looks_and_later_ones_count_them(tmp_path: Path, monkeypatch):
    folder = small_project(tmp_path / "the writer's folder, ö")
    ledger, topic = ledger_of(folder / "config", TOPIC), folder / TOPIC_FILE
    monkeypatch.chdir(folder)

    built(folder, f"archive_{TOPIC}")
    first = built(folder)  # the brief names the edition
    assert len(windows(folder)) == 1 and not first.earlier and first.family.earlier == 0
    kept, made = ledger.read_bytes(), outputs(folder)
    assert stale(Steps(load("config"), "output").all(), "output") == []
    edit(topic, "Spin paid for it", "It was the spinners")
    built(folder, TOPIC)
    assert ledger.read_bytes() == kept  # other words ask nothing new
    assert outputs(folder)[f"{TOPIC}/findings.json"] == made[f"{TOPIC}/findings.json"]

    edit(topic, HEAD, OTHER)
    second = built(folder, f"archive_{TOPIC}")
    assert len(windows(folder)) == 2 and ledger.read_bytes().startswith(kept)
    assert second.family.earlier == 1 == len(second.earlier)
    head = next(one for one in second.findings if one.id in second.headlines)
    assert head.family_size == 2 and second.versions[head.id].number == 2
    assert SAID in (folder / "output" / TOPIC / "talking-points.md").read_text("utf-8")
    _editions(folder)

    text = ledger.read_text("utf-8")
    ledger.write_text(text.replace("change of", "chance of", 1), "utf-8")
    refused = command(folder, "build", TOPIC)
    assert refused.returncode == 1 and f"{ledger.relative_to(folder)}:2:1: not as" in refused.stderr
    assert "Traceback" not in refused.stderr
    ledger.unlink()
    anew = built(folder, TOPIC)
    assert anew.earlier == [] and anew.family.earlier == 0 and len(windows(folder)) == 1


def _editions(folder: Path) -> None:
    """Both are whole; the second is made again with the ledger that it keeps; they are compared."""
    for number in "12":
        assert command(folder, "verify", f"output/archive/{TOPIC}/{number}").returncode == 0
    kept = folder / "output" / "archive" / TOPIC / "2" / "data" / "config"
    assert len(read_ledger(ledger_of(kept, TOPIC))) == 1
    again = command(folder, "rebuild", f"{TOPIC}/2")
    assert "made again" in again.stdout, again.stderr
    moved = command(folder, "compare", f"{TOPIC}/1", f"{TOPIC}/2")
    assert "more looks of earlier builds (1 now, none then)" in " ".join(moved.stdout.split())


def test_what_a_build_that_was_killed_has_looked_at_is_added_by_the_next(tmp_path: Path):
    """The brief was there, its line was not: it is added before the topic asks anything else."""
    folder = small_project(tmp_path / "p")
    assert snakemake(folder, TOPIC).returncode == 0
    assert windows(folder) == []
    edit(folder / TOPIC_FILE, HEAD, OTHER)
    found = built(folder, TOPIC)
    assert len(windows(folder)) == len(set(windows(folder))) == 2
    assert found.family.earlier == 1
    uncounted = "statistics:\n  count_earlier_looks: false"
    edit(folder / "config" / "project.yaml", "statistics:", uncounted)
    left = built(folder, TOPIC)
    assert left.family.earlier == 0 and left.versions == found.versions
    page = (folder / "output" / TOPIC / "brief.html").read_text("utf-8")
    assert "none of them is counted" in page
