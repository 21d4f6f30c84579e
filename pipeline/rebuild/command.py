"""python -m pipeline rebuild PATH: an edition made again from what it holds.

Says that every file has the same bytes, or which have not and why. Match files that the edition
does not hold are looked for here, by path and checksum. Nothing is written but a folder that is
removed.
"""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

from msgspec import to_builtins

from pipeline.archive.contents import files_of_charts
from pipeline.archive.edition import software
from pipeline.compare.command import edition_of
from pipeline.contracts.editions import Edition
from pipeline.editions.alike import alike
from pipeline.editions.findings import read_findings
from pipeline.editions.reading import VERIFY, read_around, read_charts, read_inputs
from pipeline.editions.store import read_edition
from pipeline.errors import Problem, UserError
from pipeline.provenance import code_hash
from pipeline.rebuild.lay_out import lay_out
from pipeline.rebuild.make import made
from pipeline.terminal import say
from pipeline.topic_files import BRIEF, CHECK, NUMBERS
from pipeline.verify.check import check

LAST_DIGITS = "the numbers differ in their last digits only, as between processors"
OTHER_FORMAT = "the numbers are the same, written in another format than then"
Versions = dict[str, str | None]
MOVED = "the numbers themselves differ; make brief, then python -m pipeline compare shows which"


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
    say(again(folder, Path.cwd()))


def again(folder: Path, here: Path) -> str:
    """The line to print when every file has the same bytes."""
    payload = folder / "data"
    edition = read_edition(folder)
    around, inputs = read_around(payload, VERIFY), read_inputs(payload, VERIFY)
    with tempfile.TemporaryDirectory() as temporary:
        work = Path(temporary)
        lay_out(payload, inputs, here, work)
        out = made(work, edition, around)
        same, other = held_against(payload, out, work / "output" / "data")
        if other:
            reasons = why(edition, payload, out, other)
            raise UserError([*other, *(Problem("why", reason) for reason in reasons)])
    return f"{edition.topic}, edition {edition.edition}: made again, {same} files byte-identical"


def held_against(payload: Path, out: Path, data: Path) -> tuple[int, list[Problem]]:
    """How many made files have the edition's bytes, and which have not."""
    drawn = files_of_charts(read_charts(payload, VERIFY))
    pairs = {name: out / name for name in (*BRIEF, *NUMBERS, *(f"charts/{name}" for name in drawn))}
    # Only where there was a script; an edition of before has the script, and no check of it.
    pairs |= {name: out / name for name in CHECK if (payload / name).is_file()}
    pairs["quality.json"] = data / "quality.json"
    differ = {name: _differs(payload / name, path) for name, path in pairs.items()}
    other = [Problem(name, message) for name, message in differ.items() if message]
    return len(pairs) - len(other), other


def _differs(kept: Path, path: Path) -> str | None:
    """What is not the same about a file made again; none where its bytes are."""
    if not kept.is_file():
        return "not in the edition"
    if not path.is_file():
        return "not made again"
    return None if path.read_bytes() == kept.read_bytes() else "has other bytes"


def why(edition: Edition, payload: Path, out: Path, other: list[Problem]) -> list[str]:
    """What is not as it was then, as far as it is on record."""
    reasons = []
    if edition.code != code_hash():
        at = f"; it was made at commit {edition.commit.id}" if edition.commit else ""
        reasons.append(f"the program's code or its libraries' pins are not those of then{at}")
    reasons += other_versions(edition.software, software())
    if "findings.json" in {problem.file for problem in other}:
        reasons.append(_numbers_moved(payload, out))
    return reasons or ["nothing on record explains it"]


def other_versions(then: Versions, now: Versions) -> list[str]:
    """Which libraries are not those of then; which an edition does not tell, older ones fewer."""
    moved = [
        f"{name} {then[name] or 'none'} then, {now.get(name) or 'none'} now"
        for name in then
        if then[name] != now.get(name)
    ]
    untold = [f"{name} {now[name] or 'none'} now" for name in now if name not in then]
    reasons = [f"other versions: {'; '.join(moved)}"] if moved else []
    told = f"that edition does not tell these of then: {'; '.join(untold)}"
    return [*reasons, told] if untold else reasons


def _numbers_moved(payload: Path, out: Path) -> str:
    then, now = (to_builtins(read_findings(folder, VERIFY)) for folder in (payload, out))
    if then == now:
        return OTHER_FORMAT
    return LAST_DIGITS if alike(then, now) else MOVED
