"""The sentences of the trials as captions without signs, with talk between them.

`python -m tests.unsigned_trials` prints what becomes of the numbers of each class. The demo has to
be built: BUILT names its folder.
"""

from __future__ import annotations

import os
from collections import Counter, defaultdict
from collections.abc import Mapping
from pathlib import Path
from random import Random

from pipeline.said.check import checked
from pipeline.script.judged import asked
from pipeline.transcripts.joined import passages
from pipeline.transcripts.sentence_ends import sentence_spans
from tests.bench.captions import CHAT
from tests.script_scores import SCRIPT, Span, answers, known_by, rows_of
from tests.unsigned_captions import DEMO, Pauses, captions_of, heard, places, spoken

FILES = ("own", "seen", "held")
PLAIN = "not a statistic"


def trials(built: Path, pauses: Pauses, seed: int) -> Mapping[str, Counter[str]]:
    """By the right result what was found; of sentences that stand under no heading."""
    rows = [row for name in FILES for row in rows_of(SCRIPT / f"{name}.jsonl")]
    found: defaultdict[str, Counter[str]] = defaultdict(Counter)
    for topic in DEMO:
        said, right, before = list[str](), list[tuple[int, int, Span]](), 0
        for row in rows:
            if row["topic"] != topic or row.get("heading"):
                continue
            text = row["text"]
            for each in answers(row):
                first = before + len(heard(text[: each.begins]))
                right.append((first, first + len(heard(text[each.begins : each.ends])), each))
            mine = [*(text[a:b] for a, b in sentence_spans(text)), CHAT]
            said, before = [*said, *mine], before + sum(len(heard(each)) for each in mine)
        shown = captions_of(spoken(said), pauses, Random(seed))
        told = places(checked([asked(one) for one in passages(shown)], known_by(str(built), topic)))
        judged = {
            at: each.number.result
            for each in told
            for at in range(each.word, each.word + len(heard(each.number.said)))
        }
        for first, last, each in right:
            result = next((judged[at] for at in range(first, last) if at in judged), PLAIN)
            found[each.result][each.result if result in each.others else result] += 1
    return found


def main() -> None:
    for name, found in trials(Path(os.environ["BUILT"]).resolve(), "anywhere", 3).items():
        shares = {each: f"{count / found.total():.2f}" for each, count in found.most_common()}
        print(f"{name:16} {found.total():5} {shares}")


if __name__ == "__main__":
    main()
