"""The demo's own lines as captions without signs, and how each of their numbers is judged.

`python -m tests.unsigned_captions` prints it, of the numbers as they are and of each one moved by
a third in its turn. The demo has to be built: BUILT names its folder.
"""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import chdir
from functools import cache
from pathlib import Path
from random import Random
from typing import Literal, NamedTuple, get_args

from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.episode import Episode
from pipeline.contracts.facts import Fact, Facts
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.contracts.script_check import NumberChecked, SentenceChecked
from pipeline.said.read_numbers import read
from pipeline.said.rounding import NEAR
from pipeline.said.tokens import tokens_of
from pipeline.script.file_checked import Judge
from pipeline.script.judged import judge_of
from pipeline.transcripts.caption_files import Caption
from pipeline.transcripts.joined import passages
from pipeline.transcripts.passage import Passage
from pipeline.transcripts.sentence_ends import sentence_spans
from pipeline.wording import numbers

Pauses = Literal["ends", "anywhere", "nowhere"]
DEMO = ("long-grass", "sea-air", "who-paid")
FINE = ("supported", "not a statistic")
WRONG = ("contradicted", "wrong direction", "wrong unit")
A_CUE, A_WORD, A_PAUSE = 8, 350, 1_400  # words; milliseconds
OFTEN = 0.3  # of the captions have a pause behind them, where pauses stand anywhere
FACTORS = (1.3, 0.7)


class Spoken(NamedTuple):
    """Words without signs and capitals, and behind which of them a sentence ends."""

    words: list[str]
    ends: frozenset[int]


class Place(NamedTuple):
    """A number by its first word, and what it is judged to be."""

    word: int
    number: NumberChecked


def lines_of(episode: Episode) -> Iterator[str]:
    """All that is said, in its order."""
    yield from (line.text for line in (*episode.cold_open, *episode.answer))
    for beat in episode.beats:
        yield from filter(None, (beat.opening, *(line.text for line in beat.lines)))
    yield from (line.text for line in episode.close)


def spoken(sentences: Sequence[str]) -> Spoken:
    """The sentences as a program hears them."""
    words, ends = list[str](), set[int]()
    for sentence in sentences:
        words += heard(sentence)
        ends.add(len(words))
    return Spoken(words, frozenset(ends))


def heard(sentence: str) -> list[str]:
    bare = (word.strip(".,;:?!“”‘’–").lower().replace("’", "'") for word in sentence.split())
    return [word for word in bare if word]


def captions_of(said: Spoken, pauses: Pauses, chance: Random) -> list[Caption]:
    """Captions of a line's words each; a caption ends where a sentence does, if pauses show it."""
    shown, at, clock = list[Caption](), 0, 0
    while at < len(said.words):
        ends = min(at + A_CUE, len(said.words))
        if pauses == "ends":
            ends = min([ends, *(each for each in said.ends if at < each < ends)])
        begins, clock = clock, clock + (ends - at) * A_WORD
        shown.append(Caption(begins, clock, [" ".join(said.words[at:ends])]))
        paused = ends in said.ends if pauses == "ends" else chance.random() < OFTEN
        clock += A_PAUSE if paused and pauses != "nowhere" else 0
        at = ends
    return shown


def places(judged: Sequence[SentenceChecked]) -> list[Place]:
    """Every number, by the words before it in all of the text."""
    found, before = list[Place](), 0
    for one in judged:
        found += [
            Place(before + len(heard(one.text[: number.begins])), number) for number in one.numbers
        ]
        before += len(heard(one.text))
    return found


class Lines(NamedTuple):
    """A topic's own sentences, who judges them, the numbers that are right in them, their facts."""

    sentences: list[str]
    judge: Judge
    right: list[Place]
    facts: dict[str, Fact]


@cache
def lines(built: Path, topic: str) -> Lines:
    with chdir(built):
        view = views.brief(load(Path("config"), only=topic), topic)
        folder = Path("output") / topic
        episode = read_json(folder / "episode.json", Episode)
        facts = read_json(folder / "facts.json", Facts).facts
        judge = judge_of(view, read_json(folder / "findings.json", Findings), facts, episode)
    sentences = [line[a:b] for line in lines_of(episode) for a, b in sentence_spans(line)]
    right = [each for each in signed(sentences, judge) if is_fine(each)]
    return Lines(sentences, judge, right, {fact.id: fact for fact in facts})


def signed(sentences: Sequence[str], judge: Judge) -> list[Place]:
    return places(judge([Passage(text) for text in sentences]))


def unsigned(sentences: Sequence[str], judge: Judge, pauses: Pauses, seed: int) -> list[Place]:
    return places(judge(passages(captions_of(spoken(sentences), pauses, Random(seed)))))


def is_fine(place: Place) -> bool:
    return place.number.result in FINE


def results(built: Path, pauses: Pauses, seed: int) -> Counter[str]:
    """What becomes of the numbers of the demo's lines that are right where signs stand."""
    found: Counter[str] = Counter()
    for topic in DEMO:
        of = lines(built, topic)
        found += results_of(of.sentences, of.judge, of.right, pauses, seed)
    return found


def results_of(
    sentences: Sequence[str], judge: Judge, right: Sequence[Place], pauses: Pauses, seed: int
) -> Counter[str]:
    """'-' counts those that are not heard."""
    judged = {each.word: each.number for each in unsigned(sentences, judge, pauses, seed)}
    return Counter(judged[each.word].result if each.word in judged else "-" for each in right)


def moved(sentences: Sequence[str], place: Place, facts: dict[str, Fact]) -> Iterator[list[str]]:
    """The sentences with one number a third more, and a third less, where that is wrong of it."""
    tokens, fact = tokens_of(place.number.said), facts.get(place.number.fact or "")
    said = read(tokens)[0]
    if place.number.result != "supported" or said.form != "number" or fact is None:
        return
    at, begins = _found(sentences, place)
    text, first = sentences[at], begins + tokens[said.first].begins
    decimals = 0 if said.whole and said.value > 20 else 1
    for factor in FACTORS:
        value = round(said.value * factor, decimals)
        if not _is_near(value, fact):
            rest = text[begins + tokens[said.last - 1].ends :]
            other = f"{text[:first]}{numbers.said(value, decimals)}{rest}"
            yield [*sentences[:at], other, *sentences[at + 1 :]]


def _found(sentences: Sequence[str], place: Place) -> tuple[int, int]:
    """The sentence that a number is in, and its first character there."""
    before = 0
    for at, text in enumerate(sentences):
        for match in re.finditer(re.escape(place.number.said), text):
            if before + len(heard(text[: match.start()])) == place.word:
                return at, match.start()
        before += len(heard(text))
    raise AssertionError(place)


def _is_near(value: float, fact: Fact) -> bool:
    """Whether it is a rounding of the fact or of an end of it, be it one that goes too far."""
    ends = [abs(each * fact.scale) for each in (fact.value, fact.low, fact.high) if each]
    return any(abs(value - each) <= NEAR * each for each in ends)


def moved_results(built: Path, pauses: Pauses | None, seed: int) -> Counter[str]:
    """What becomes of each number that is moved, with signs where no `pauses` are named.

    Risk 1 and 2 of what is for a person are told apart from risk 3.
    """
    found: Counter[str] = Counter()
    for topic in DEMO:
        of = lines(built, topic)
        for place in of.right:
            for sentences in moved(of.sentences, place, of.facts):
                told = (
                    unsigned(sentences, of.judge, pauses, seed)
                    if pauses
                    else signed(sentences, of.judge)
                )
                mine = next((each.number for each in told if each.word == place.word), None)
                found[_named(mine)] += 1
    return found


def _named(number: NumberChecked | None) -> str:
    if number is None:
        return "-"
    return number.result + (f" {number.risk}" if number.result == "for a person" else "")


def main() -> None:
    built = Path(os.environ["BUILT"]).resolve()
    for pauses in get_args(Pauses):
        for seed in range(6 if pauses == "anywhere" else 1):
            print(pauses, seed, dict(results(built, pauses, seed)))
    for pauses in (None, *get_args(Pauses)):
        found = moved_results(built, pauses, 0)
        print("moved", pauses, {k: f"{v / found.total():.2f}" for k, v in found.most_common()})


if __name__ == "__main__":
    main()
