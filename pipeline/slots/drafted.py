"""The draft of a script: what is said in an episode, with a slot wherever a line says a fact."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.episode import Episode, SpokenBeat, SpokenLine
from pipeline.contracts.facts import Fact
from pipeline.markdown import outside_slots
from pipeline.slots.filled import BARE
from pipeline.slots.numbers_found import found_in
from pipeline.wording import script

if TYPE_CHECKING:
    from pipeline.config.topic import Sponsor

COLD_OPEN, ANSWER, CLOSE = "Cold open", "The answer", "Close"
HOW = "A number is {{ fact-id | form }}: ids in facts.csv, forms in config/README.md."
DRAFT = "Made anew at every build. To keep your own: python -m pipeline script {topic} --keep."
KEPT = "Yours: nothing else writes this file. What moved since: python -m pipeline script {topic}."


def draft_of(
    title: str,
    episode: Episode,
    facts: Sequence[Fact],
    sponsors: Sequence[Sponsor],
    answers: Mapping[str, str] | None = None,
) -> str:
    """Plain Markdown, with the time of each part and so far.

    `answers` are findings that answer another one's question, whose numbers their lines may say.
    """
    drawn = _Draft(facts, answers or {})
    parts = [
        *drawn.lines(COLD_OPEN, episode.cold_open),
        *drawn.lines(ANSWER, episode.answer),
        *(
            text
            for at, beat in enumerate(episode.beats, start=1)
            for text in drawn.beat(at, beat, [slot for slot in sponsors if slot.after == beat.id])
        ),
        *drawn.lines(CLOSE, episode.close),
    ]
    head = [f"# {outside_slots(title)}", note(DRAFT, episode.topic)]
    return "\n\n".join([*head, *parts]) + "\n"


def note(text: str, topic: str) -> str:
    """The comment under the title."""
    return f"<!-- {text.format(topic=topic)} {HOW} -->"


class _Draft:
    """Parts of a draft, made one after the other: the clock runs on."""

    def __init__(self, facts: Sequence[Fact], answers: Mapping[str, str]) -> None:
        self.by_id = {fact.id: fact for fact in facts}
        self.answers, self.clock = answers, script.Clock()
        self.of_finding: dict[str, list[Fact]] = {}
        for fact in facts:
            self.of_finding.setdefault(fact.finding or "", []).append(fact)

    def lines(self, title: str, lines: Sequence[SpokenLine]) -> Iterator[str]:
        """A part without charts; none where there is nothing to say."""
        if lines:
            yield self._heading(title, [line.text for line in lines])
            yield from map(self._line, lines)

    def beat(self, at: int, beat: SpokenBeat, slots: Sequence[Sponsor]) -> Iterator[str]:
        said = [*filter(None, [beat.opening]), *(line.text for line in beat.lines)]
        yield self._heading(beat.title, said, f"{at}. ", sum(slot.seconds for slot in slots))
        if beat.charts:
            yield "\n".join(f"> Chart: {chart}" for chart in beat.charts)
        if beat.opening:
            about = [name for line in beat.lines for name in line.findings]
            yield self._line(SpokenLine(text=beat.opening, findings=list(dict.fromkeys(about))))
        yield from map(self._line, beat.lines)
        for slot in slots:
            name = outside_slots(slot.say or BARE)
            yield f"> Sponsor: {name} ({script.clock(slot.seconds)})"

    def _heading(self, title: str, said: Sequence[str], number: str = "", slots: int = 0) -> str:
        words = sum(map(script.words, said))
        times = [seconds + slots for seconds in script.timing(words)]
        so_far = self.clock.run(*times)
        return f"## {number}{outside_slots(title)} ({script.clock(times[0])}, {so_far} so far)"

    def _line(self, line: SpokenLine) -> str:
        """Its text to the letter, but for slots where it says a fact of its own."""
        written, after = "", 0
        for found in found_in(line.text, self._own(line), trusted=line.facts):
            begins, ends = found.span
            written += outside_slots(line.text[after:begins]) if begins > after else ""
            written += f"{{{{ {found.fact} | {found.form} }}}}"
            after = ends
        return written + (outside_slots(line.text[after:]) if after < len(line.text) else "")

    def _own(self, line: SpokenLine) -> list[Fact]:
        """The facts that the line names, those of its findings, those of what they answer too."""
        findings = dict.fromkeys(line.findings)
        findings |= dict.fromkeys(self.answers[name] for name in findings if name in self.answers)
        facts = {name: self.by_id[name] for name in line.facts if name in self.by_id}
        for name in findings:
            facts |= {fact.id: fact for fact in self.of_finding.get(name, [])}
        return list(facts.values())
