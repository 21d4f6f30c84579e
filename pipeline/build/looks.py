"""What a build has looked at, added to the ledgers of its topics when their briefs are made.

It is done under the build's lock, at its end and once more before the next begins: what was made
by a build that was killed, or that failed of another topic, is not lost.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

from pipeline.contracts.files import read_json
from pipeline.contracts.finding import Finding, control_of, drift_of
from pipeline.contracts.findings import Findings
from pipeline.contracts.ledger import EarlierLook, Role
from pipeline.contracts.made import Record
from pipeline.errors import UserError
from pipeline.hashes import file_hash
from pipeline.ledger.book import add_lines, ledger_of, read_ledger
from pipeline.records.places import record_of


def keep_looks(config: Path, output: Path, topics: Sequence[str], day: date) -> None:
    """Add to each topic's ledger what its brief has looked at and the ledger has not.

    Raises UserError naming the lines of every ledger that can't be read; nothing is added then.
    """
    problems, ledgers = [], {}
    for topic in topics:
        try:
            ledgers[topic] = read_ledger(ledger_of(config, topic))
        except UserError as error:
            problems += error.problems
    if problems:
        raise UserError(problems)
    for topic, there in ledgers.items():
        findings = _in_a_brief(output / topic)
        looks = list(new_looks(findings, there, day)) if findings else []
        if looks:
            add_lines(ledger_of(config, topic), looks)


def _in_a_brief(folder: Path) -> Findings | None:
    """The findings of a topic whose brief was made of them; else nobody has read them."""
    path = folder / "findings.json"
    try:
        record = read_json(record_of("brief", folder), Record)
        if record.read.get(f"{folder.name}/{path.name}") != file_hash(path):
            return None
        return read_json(path, Findings)
    except (UserError, OSError):
        return None


def new_looks(
    findings: Findings, ledger: Sequence[EarlierLook], day: date
) -> Iterator[EarlierLook]:
    """A line for each headline and expectation that asks what the ledger has not, each once.

    The same question has the same identity, whatever it is called and whatever its data were since;
    what was expected and is a headline now is a line again, for headlines are counted.
    """
    known = {(look.role, look.asks.identity) for look in ledger}
    told: tuple[tuple[Role, list[str]], ...] = (
        ("headline", findings.headlines),
        ("expected", findings.expected),
    )
    by_id = {finding.id: finding for finding in findings.findings}
    for role, ids in told:
        for finding in (by_id[name] for name in ids if name in by_id):
            identity = finding.asks.identity
            if not {(role, identity), ("headline", identity)} & known:
                known.add((role, identity))
                yield _line(finding, role, day)


def _line(finding: Finding, role: Role, day: date) -> EarlierLook:
    line = EarlierLook(date=day, role=role, asks=finding.asks)
    effect, drift, control = finding.effect, drift_of(finding), control_of(finding)
    if effect:
        told = effect.difference if finding.kind == "share" else effect.change
        line.value, line.p, line.p_held = told.value, effect.p, effect.p_inside
    if drift and drift.test:
        line.p_step = drift.test.p
    if control:
        line.p_control = control.effect.p
    return line
