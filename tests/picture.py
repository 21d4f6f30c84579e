"""python -m tests.picture: draw the stages into DEVELOPERS.md, and windows into README.md.

The rule graph has a rule of charts for every topic, since what is drawn is known only from the
topic; the picture is of the stages, so they are one node, and targets that make nothing are left
out. Mermaid is drawn by what shows the Markdown, so nothing need be installed.
"""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

from pipeline.errors import Problem, UserError, run_stage, write_atomically
from tests import windows_drawn

ROOT = Path(__file__).parents[1]
PAGE = ROOT / "DEVELOPERS.md"
BEGIN, END = "<!-- picture: make picture -->", "<!-- /picture -->"
README = ROOT / "README.md"
WINDOWS = ("<!-- windows: make picture -->", "<!-- /windows -->")
TARGETS = {"all"}

Edge = tuple[str, str]


def rulegraph(folder: Path = ROOT) -> str:
    """Snakemake's own graph of the rules, as Mermaid."""
    command = [sys.executable, "-m", "snakemake", "--rulegraph", "mermaid-js"]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode:
        last = (done.stderr.strip().splitlines() or ["snakemake failed"])[-1]
        raise UserError(Problem("Snakefile", last))
    return done.stdout


def edges(graph: str) -> set[Edge]:
    """Which stage hands over to which, the charts of all topics as one."""
    names = {
        number: re.sub(r"^charts_.*", "charts", name)
        for number, name in re.findall(r"^\s*(id\d+)\[(.+)\]$", graph, re.MULTILINE)
    }
    arrows = re.findall(r"^\s*(id\d+) --> (id\d+)$", graph, re.MULTILINE)
    found = {(names[one], names[other]) for one, other in arrows}
    return {edge for edge in found if not TARGETS & set(edge)}


def picture(found: set[Edge]) -> str:
    """The edges as a Mermaid flowchart, in the order in which stages run."""
    ordered = sorted(found, key=lambda edge: (_depth(edge[0], found), edge))
    lines = [f"    {one} --> {other}" for one, other in ordered]
    return "\n".join(["```mermaid", "flowchart LR", *lines, "```"])


def _depth(stage: str, found: set[Edge]) -> int:
    """How many stages stand before this one, on the longest way to it."""
    return max((1 + _depth(one, found) for one, other in found if other == stage), default=0)


def drawn(page: str, made: str) -> str:
    """The page with the picture between its two marks."""
    return between(page, BEGIN, END, made)


def with_windows(page: str) -> str:
    """The README with the picture of windows as they are chosen."""
    return between(page, *WINDOWS, windows_drawn.picture())


def between(page: str, begin: str, end: str, made: str) -> str:
    """The page with what was made between two marks, each of which stands there once."""
    if page.count(begin) != 1 or page.count(end) != 1 or page.index(begin) > page.index(end):
        raise UserError(Problem(PAGE.name, f"no place for what is made: '{begin}' … '{end}'"))
    before, rest = page.split(begin)
    return f"{before}{begin}\n{made}\n{end}{rest.split(end)[1]}"


def main() -> None:
    made = picture(edges(rulegraph()))
    write_atomically(PAGE, drawn(PAGE.read_text("utf-8"), made))
    write_atomically(README, with_windows(README.read_text("utf-8")))


if __name__ == "__main__":
    run_stage(main)
