"""python -m pipeline rebuild PATH: an edition made again from what it holds.

Says that every file has the same bytes, or which have not and why. Match files that the edition
does not hold are looked for here, by path and checksum. Nothing is written but a folder that is
removed.
"""

from __future__ import annotations

import argparse
import json
import tempfile
from pathlib import Path
from typing import Any

from pipeline.archive.contents import NUMBERS, files_of_charts
from pipeline.archive.crate import BRIEF
from pipeline.archive.edition import software
from pipeline.compare.command import edition_of
from pipeline.contracts.facts import Charts, charts_of_format_0
from pipeline.contracts.files import read_json
from pipeline.editions.alike import alike
from pipeline.errors import Problem, UserError
from pipeline.provenance import code_hash
from pipeline.rebuild.lay_out import lay_out
from pipeline.rebuild.make import made
from pipeline.verify.check import check

View = dict[str, Any]
LAST_DIGITS = "the numbers differ in their last digits only, as between processors"
MOVED = "the numbers themselves differ; make brief, then python -m pipeline compare shows which"
TOPIC = (*BRIEF, *NUMBERS)  # what is made of a topic, beside its charts


def rebuild(words: list[str]) -> None:
    """Print what came of it. Raises UserError with every file that has other bytes."""
    parser = argparse.ArgumentParser(
        prog="python -m pipeline rebuild",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("path", help="an edition's folder, or TOPIC/NUMBER")
    parser.add_argument("--output", type=Path, default=Path("output"))
    options = parser.parse_args(words)
    folder = edition_of(options.path, options.output).resolve()
    damaged = check(folder).wrong
    if damaged:
        raise UserError(Problem(name, f"{said}; put back a whole copy") for name, said in damaged)
    print(again(folder, Path.cwd()))


def again(folder: Path, here: Path) -> str:
    """The line to print when every file has the same bytes."""
    payload = folder / "data"
    about, around, inputs = (
        _read(payload / f"{name}.json") for name in ("edition", "around", "inputs")
    )
    with tempfile.TemporaryDirectory() as temporary:
        work = Path(temporary)
        lay_out(payload, inputs, here, work)
        out = made(work, about, around)
        same, other = held_against(payload, out, work / "output" / "data")
        if other:
            reasons = why(about, payload, out, other)
            raise UserError([*other, *(Problem("why", reason) for reason in reasons)])
    return f"{about['topic']}, edition {about['edition']}: made again, {same} files byte-identical"


def held_against(payload: Path, out: Path, data: Path) -> tuple[int, list[Problem]]:
    """How many made files have the edition's bytes, and which have not."""
    charts = read_json(payload / "charts" / "charts.json", Charts, upgrade=charts_of_format_0)
    drawn = files_of_charts(charts.charts)
    pairs = {name: out / name for name in (*TOPIC, *(f"charts/{name}" for name in drawn))}
    pairs["quality.json"] = data / "quality.json"
    other = []
    for name, path in pairs.items():
        if not path.is_file():
            other.append(Problem(name, "not made again"))
        elif path.read_bytes() != (payload / name).read_bytes():
            other.append(Problem(name, "has other bytes"))
    return len(pairs) - len(other), other


def why(about: View, payload: Path, out: Path, other: list[Problem]) -> list[str]:
    """What is not as it was then, as far as it is on record."""
    reasons = []
    if about["code"] != code_hash():
        commit = about["commit"]
        at = f"; it was made at commit {commit['id']}" if commit else ""
        reasons.append(f"the program's code or its libraries' pins are not those of then{at}")
    then, now = about["software"], software()
    moved = [
        f"{name} {then[name]} then, {now.get(name)} now"
        for name in then
        if then[name] != now.get(name)
    ]
    reasons += [f"other versions: {'; '.join(moved)}"] if moved else []
    if "findings.json" in {problem.file for problem in other}:
        same = alike(*(_read(folder / "findings.json") for folder in (payload, out)))
        reasons.append(LAST_DIGITS if same else MOVED)
    return reasons or ["nothing on record explains it"]


def _read(path: Path) -> Any:
    try:
        return json.loads(path.read_text("utf-8"))
    except (OSError, ValueError):
        message = "can't be read: an edition of an older version, or no edition"
        raise UserError(Problem(str(path), message)) from None
