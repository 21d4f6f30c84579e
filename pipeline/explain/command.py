"""python -m pipeline explain FACT [--topic NAME]: where a number comes from."""

from __future__ import annotations

import argparse
from pathlib import Path

from pipeline.asked_fact import chief, no_fact, topic_of
from pipeline.config.load import DEFAULT, load
from pipeline.contracts.facts import Fact
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.editions.reading import MAKE, read_facts
from pipeline.errors import Problem, UserError
from pipeline.explain.printed import explained
from pipeline.explain.remade import Again, made_again
from pipeline.records.whole import check_whole
from pipeline.terminal import say


def explain(words: list[str]) -> None:
    """Print what a fact rests on, run its query again, and say whether the number is the same."""
    parser = argparse.ArgumentParser(prog="python -m pipeline explain", description=__doc__)
    parser.add_argument(
        "fact", help="its id, as in the brief's index, or a finding's: kinds.economy.spin-middle"
    )
    parser.add_argument("--topic", help="where several topics have the fact")
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--output", type=Path, default=Path("output"))
    options = parser.parse_args(words)
    topic, fact = find_fact(options.fact, options.topic, options.output)
    config = load(options.config, only=topic)
    folder = options.output / topic
    check_whole(config, topic, options.output)
    findings = read_json(folder / "findings.json", Findings)
    again = made_again(config, topic, fact, findings, options.output / "data")
    say(*explained(fact, topic, findings, again))
    if not again.same_as(fact):
        raise UserError(Problem(fact.id, _not_the_same(again)))


def _not_the_same(again: Again) -> str:
    return (
        f"made again it is {again.value!r}: the outputs are older than the data, the configuration "
        "or the code; run make brief"
    )


def find_fact(name: str, topic: str | None, output: Path) -> tuple[str, Fact]:
    """(topic, fact) of an id; of a finding's its chief fact.

    Raises UserError when nobody, or more than one topic, has it.
    """
    files = sorted(output.glob("*/facts.json"))
    if topic:
        files = [path for path in files if path.parent.name == topic]
    if not files:
        what = f"topic '{topic}'" if topic else "topic"
        raise UserError(Problem(str(output), f"no built {what} here; run make brief first"))
    facts = {path.parent.name: read_facts(path.parent, MAKE) for path in files}
    having, found = topic_of(name, facts)
    fact = chief(name, facts[having])
    if fact is None:
        raise UserError(Problem(name, f"no such fact{no_fact(name, [found])}"))
    return having, fact
