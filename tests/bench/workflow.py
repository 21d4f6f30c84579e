"""The demo from raw zip to PDF, one changed sentence against a dry run, and the same previewed."""

from __future__ import annotations

import re
import statistics
import subprocess
import sys
import time
from pathlib import Path

from tests.bench.clock import median, seconds
from tests.conftest import snakemake

RUNS = 5


def figures(project: Path) -> dict[str, float]:
    """Of a copy of the project with nothing built; it is left with the demo built."""
    demo = seconds(lambda: run(project))
    dry = median(lambda: run(project, "-n", "--quiet", "all"), lambda: None, RUNS)
    sentence = median(lambda: run(project, "long-grass"), lambda: change(project), RUNS)
    page = previewed(project)
    return {
        "demo_seconds": round(demo, 2),
        "dry_run_seconds": round(dry, 3),
        "sentence_to_pdf_seconds": round(sentence, 3),
        "sentence_to_pdf_vs_dry_run": round(sentence / dry, 2),
        "preview_seconds": round(page, 3),
        "preview_vs_dry_run": round(page / dry, 2),
    }


def run(project: Path, *words: str) -> None:
    done = snakemake(project, *words)
    if done.returncode:
        raise SystemExit(done.stderr[-2000:])


def previewed(project: Path) -> float:
    """Median seconds from a saved sentence to the line that says there is a new page."""
    command = [sys.executable, "-m", "pipeline", "preview", "long-grass", "--port", "0"]
    with subprocess.Popen(command, cwd=project, stdout=subprocess.PIPE, text=True) as watching:
        try:
            assert "http" in watching.stdout.readline()
            assert "new page" in watching.stdout.readline()
            taken = []
            for _ in range(RUNS):
                change(project)
                begun = time.perf_counter()
                assert "new page" in watching.stdout.readline()
                taken.append(time.perf_counter() - begun)
        finally:
            watching.terminate()
    return statistics.median(taken)


def change(project: Path) -> None:
    """Give the topic's note another number, so that the brief must be made again."""
    topic = project / "config" / "topics" / "long-grass.yaml"
    text = topic.read_text("utf-8")
    changed = re.sub(r"instead of \d+", f"instead of {time.time_ns()}", text)
    topic.write_text(changed, "utf-8")
