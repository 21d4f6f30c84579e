"""How well a script's numbers and claims are judged: precision and recall of every class.

`python -m tests.script_scores FILE` prints them for a file of sentences with the right answers;
`--misses` lists what was judged otherwise. Held sentences' scores are kept in results.csv. The
demo has to be built: BUILT names its folder.
"""

from __future__ import annotations

import argparse
import json
import os
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import chdir
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple, get_args

import msgspec

from pipeline.config import views
from pipeline.config.load import Config, load
from pipeline.contracts.episode import Episode
from pipeline.contracts.facts import Fact, Facts
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.contracts.script_check import ClaimKind, Result, SentenceChecked
from pipeline.csv_files import csv_text
from pipeline.said.check import Sentence, checked
from pipeline.said.topic_known import Earlier, Known, known_of
from pipeline.transcripts.sentence_ends import sentence_spans

SCRIPT = Path(__file__).parent / "script"
HELD, RESULTS = SCRIPT / "held.jsonl", SCRIPT / "results.csv"
CLASSES = (*get_args(Result), *get_args(ClaimKind))
PLAIN = "not a statistic"


class Span(NamedTuple):
    """What is judged in a text, and how; `others` are results that are as right."""

    begins: int
    ends: int
    result: str
    facts: tuple[str, ...] = ()
    others: tuple[str, ...] = ()


class Score(NamedTuple):
    """Of one class; `count` is how many there are by the right answers."""

    name: str
    precision: float
    recall: float
    count: int


class Miss(NamedTuple):
    """`right` and `found` are classes, '' of none."""

    text: str
    said: str
    right: str
    found: str


def known_in(folder: Path, config: Config, topic: str, earlier: Earlier = ()) -> Known:
    """Of a topic's output folder, as it is built, and the configuration."""
    return known_of(
        views.brief(config, topic),
        read_json(folder / "findings.json", Findings),
        read_json(folder / "facts.json", Facts).facts,
        earlier,
        read_json(folder / "episode.json", Episode),
    )


@cache
def known_by(built: str, topic: str) -> Known:
    """The demo's topic, with what the earlier edition of the trial said."""
    old: dict[str, float] = json.loads((SCRIPT / "earlier.json").read_text("utf-8"))[topic]
    with chdir(built):
        config = load(Path("config"), only=topic)
        folder = Path("output") / topic
        facts = {fact.id: fact for fact in read_json(folder / "facts.json", Facts).facts}
        earlier: list[Fact] = [
            msgspec.structs.replace(facts[name], value=value / facts[name].scale)
            for name, value in old.items()
        ]
        return known_in(folder, config, topic, [("1", earlier)])


def judged(row: dict[str, Any], built: str) -> tuple[list[Span], list[Span]]:
    """The numbers and the claims of a text that is read sentence by sentence."""
    text, known = row["text"], known_by(built, row["topic"])
    heading = row.get("heading", "")
    told: list[SentenceChecked] = checked(
        [Sentence(text[a:b], heading=heading) for a, b in sentence_spans(text)], known
    )
    numbers, claims, at = [], [], 0
    for sentence in told:
        at = text.index(sentence.text, at)
        for number in sentence.numbers:
            found = (number.fact,) if number.fact else ()
            numbers.append(Span(at + number.begins, at + number.ends, number.result, found))
        for claim in sentence.claims:
            claims.append(Span(at + claim.begins, at + claim.ends, claim.kind))
    return numbers, claims


def answers(row: dict[str, Any]) -> list[Span]:
    """The numbers as they ought to be judged, found in the text in their order."""
    found, at = [], 0
    for number in row.get("numbers", []):
        begins = row["text"].lower().index(number["said"].lower(), at)
        at = begins + len(number["said"])
        facts = tuple(each for each in (number.get("fact"), *number.get("also", [])) if each)
        others = number.get("or", [])
        others = (others,) if isinstance(others, str) else tuple(others)
        found.append(Span(begins, at, number["result"], facts, others))
    return found


def compared(rows: Sequence[dict[str, Any]], built: str) -> tuple[list[Score], list[Miss]]:
    """Every class of every row."""
    counts: Counter[tuple[str, str]] = Counter()
    misses: list[Miss] = []
    for row in rows:
        numbers, claims = judged(row, built)
        for right, found, said in [
            *_numbers(answers(row), numbers, row["text"]),
            *_claims(row, claims),
        ]:
            counts[right, "right"] += bool(right)
            counts[found, "found"] += bool(found)
            counts[right, "both"] += right == found
            if right != found:
                misses.append(Miss(row["text"], said, right, found))
    return [_score(name, counts) for name in CLASSES], misses


def _numbers(
    right: Sequence[Span], found: Sequence[Span], text: str
) -> Iterator[tuple[str, str, str]]:
    """A number that nobody asks after is none that is judged wrong while it is left alone."""
    left = list(found)
    for answer in right:
        here = [each for each in left if _overlap(each, answer)]
        best = max(here, key=lambda each: _overlap(each, answer), default=None)
        if best:
            left.remove(best)
        alone = PLAIN if PLAIN in (answer.result, *answer.others) else ""
        result = best.result if best else alone
        right_one = result if result in answer.others else answer.result
        yield right_one, result, text[answer.begins : answer.ends]
    for each in left:
        if each.result != PLAIN:
            yield "", each.result, text[each.begins : each.ends]


def _overlap(one: Span, other: Span) -> int:
    return max(0, min(one.ends, other.ends) - max(one.begins, other.begins))


def _claims(row: dict[str, Any], found: Sequence[Span]) -> Iterator[tuple[str, str, str]]:
    right = Counter(claim["kind"] for claim in row.get("claims", []))
    said = Counter(each.result for each in found)
    for claim in row.get("claims", []):  # of kinds that serve alike the one that is found
        others = claim.get("or", [])
        kinds = (others,) if isinstance(others, str) else tuple(others)
        if said[claim["kind"]] < right[claim["kind"]] and (
            one := next(filter(said.get, kinds), "")
        ):
            right[claim["kind"]] -= 1
            right[one] += 1
    for claim in row.get("optional_claims", []):
        said[claim["kind"]] -= said[claim["kind"]] > right[claim["kind"]]
    for kind in get_args(ClaimKind):
        both = min(right[kind], said[kind])
        yield from ((kind, kind, kind) for _ in range(both))
        yield from ((kind, "", kind) for _ in range(right[kind] - both))
        yield from (("", kind, kind) for _ in range(said[kind] - both))


def named_facts(rows: Sequence[dict[str, Any]], built: str) -> tuple[int, int]:
    """Of the numbers rightly called supported, how many with a fact that fits; and how many."""
    right = every = 0
    for row in rows:
        numbers, _ = judged(row, built)
        for answer in answers(row):
            here = [each for each in numbers if _overlap(each, answer)]
            both = answer.facts and here and here[0].result == "supported"
            if answer.result == "supported" and both:
                every += 1
                right += here[0].facts == () or here[0].facts[0] in answer.facts
    return right, every


def _score(name: str, counts: Counter[tuple[str, str]]) -> Score:
    right, found, both = (counts[name, each] for each in ("right", "found", "both"))
    return Score(name, both / found if found else 1.0, both / right if right else 1.0, right)


def rows_of(path: Path) -> list[dict[str, Any]]:
    lines = path.read_text("utf-8").splitlines()
    return [json.loads(line) for line in lines if line.strip()]


def write_results(scores: Sequence[Score]) -> None:
    """What the README prints."""
    rows = [
        {"class": score.name, "quantity": quantity, "value": f"{value:.3f}", "count": score.count}
        for score in scores
        for quantity, value in (("precision", score.precision), ("recall", score.recall))
    ]
    RESULTS.write_text(csv_text(rows, ("class", "quantity", "value", "count")), "utf-8")


def main() -> None:
    parser = argparse.ArgumentParser(description="score the check of a script")
    parser.add_argument("file", type=Path)
    parser.add_argument("--misses", action="store_true", help="list what is judged otherwise")
    asked = parser.parse_args()
    scores, misses = compared(rows_of(asked.file), os.environ["BUILT"])
    for score in scores:
        print(f"{score.name:18} {score.precision:.3f} {score.recall:.3f} {score.count:5}")
    right, every = named_facts(rows_of(asked.file), os.environ["BUILT"])
    print(f"supported by the fact that is meant: {right} of {every}")
    for miss in misses if asked.misses else []:
        print(f"\n{miss.text}\n    {miss.said}: {miss.right or '-'} judged {miss.found or '-'}")
    if asked.file.resolve() == HELD:
        write_results(scores)


if __name__ == "__main__":
    main()
