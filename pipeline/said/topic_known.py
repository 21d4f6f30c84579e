"""What a script is held against: a topic's facts, its findings, its names and what not to say."""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

from pipeline.contracts.episode import Episode
from pipeline.contracts.facts import Fact
from pipeline.contracts.finding import Finding
from pipeline.contracts.findings import Findings
from pipeline.contracts.script_check import NumberChecked
from pipeline.event_of import event_of
from pipeline.said import synonyms
from pipeline.said.event_claims import Causes
from pipeline.said.read_numbers import read
from pipeline.said.said_by_brief import said_by_brief
from pipeline.said.sounded import Sounded, sounded
from pipeline.said.targets import Target, units_of
from pipeline.said.targets_made import targets_of
from pipeline.said.terms import Terms
from pipeline.said.tokens import tokens_of
from pipeline.said.vocabulary import names_in, parts
from pipeline.wording.dont_say import dont_say

if TYPE_CHECKING:
    from pipeline.config.views import BriefView

KEPT = 1_000  # sentences that are known again
Earlier = Sequence[tuple[str, Sequence[Fact]]]  # an edition's name, and its facts


@dataclass(frozen=True)
class Known:
    """`earlier` are what earlier editions said of the same facts; `banned` the topic's "don't
    say" lines, `causes` what a claim of a cause would name. `also` are topics whose facts this one
    cites: what none of its own carries may be one of theirs."""

    view: BriefView
    findings: Sequence[Finding]
    targets: Sequence[Target]
    earlier: Sequence[Target]
    terms: Terms
    parts: Terms
    banned: Sequence[str]
    overs: int | None
    causes: Causes
    names: frozenset[str] = frozenset()
    by_unit: Mapping[str, Sequence[Target]] = field(default_factory=dict)
    old_by_unit: Mapping[str, Sequence[Target]] = field(default_factory=dict)
    also: Sequence[Known] = ()

    @cached_property
    def background(self) -> frozenset[float]:
        """Numbers of what the data do not hold: of the topic's background and its notes."""
        words = self.view.words
        texts = [*(each.say for each in words.background), *words.notes]
        return frozenset(said.value for text in texts for said in read(tokens_of(text)))

    def heard(self, text: str, signs: bool = True) -> Sounded:
        """A sentence taken apart; `signs` tell where it begins and ends."""
        return self._heard(text, signs)

    @cached_property
    def _heard(self) -> Callable[[str, bool], Sounded]:
        """Sentences come again: beside others, in captions without signs, and in what is sung."""

        event = self.view.event
        year = event.date.year if event else None

        @lru_cache(KEPT)
        def heard(text: str, signs: bool) -> Sounded:
            return sounded(text, self.terms, self.parts, self.overs, self.names, year, signs)

        return heard

    @cached_property
    def judged(self) -> dict[Hashable, Sequence[NumberChecked]]:
        """The numbers of sentences that were judged, by all that they were judged by."""
        return {}

    def targets_in(self, unit: str | None, named: bool = True) -> Sequence[Target]:
        """Facts that are counted so, every fact where no unit is said.

        Without the players' and the seasons', where none is `named`.
        """
        if unit is None:
            return self.targets if named else self._unnamed
        return (self.by_unit if named else self._unnamed_by_unit).get(unit, ())

    @cached_property
    def measures(self) -> frozenset[str]:
        """What facts of it are of."""
        told = {each.names["measure"] for each in self.targets if "measure" in each.names}
        return frozenset(told | {"~share"} if self.shares_moved else told)

    @cached_property
    def units(self) -> Sequence[str]:
        """What facts of a finding are counted in."""
        return sorted(unit for unit, of in self.by_unit.items() if any(each.names for each in of))

    @cached_property
    def _unnamed(self) -> Sequence[Target]:
        return [each for each in self.targets if not each.is_only_named]

    @cached_property
    def _unnamed_by_unit(self) -> Mapping[str, Sequence[Target]]:
        return _by_unit(self._unnamed)

    def earlier_in(self, unit: str | None) -> Sequence[Target]:
        """The same of earlier editions' facts that had another value."""
        return self.earlier if unit is None else self.old_by_unit.get(unit, ())

    def sides_of(self, target: Target) -> Sequence[Target]:
        """Both values of the finding that it is of."""
        return self._levels.get(target.finding.id, ()) if target.finding else ()

    @cached_property
    def _levels(self) -> Mapping[str, Sequence[Target]]:
        found: dict[str, list[Target]] = {}
        for each in self.targets:
            if each.finding and each.role == "level":
                found.setdefault(each.finding.id, []).append(each)
        return found

    @cached_property
    def now(self) -> Mapping[str, Fact]:
        """The topic's facts by their ids, as they are today."""
        return {each.fact.id: each.fact for each in self.targets if each.fact}

    @cached_property
    def found_by(self) -> Mapping[str, Finding]:
        """The finding of each fact that has one, by the fact's id."""
        return {t.fact.id: t.finding for t in self.targets if t.fact and t.finding}

    @cached_property
    def changes(self) -> Sequence[Target]:
        """One fact of each finding's change or difference."""
        found: dict[str, Target] = {}
        for target in self.targets:
            finding = target.finding
            if finding and target.role == "move" and target.side is None:
                found.setdefault(finding.id, target)
        return list(found.values())

    @cached_property
    def shares_moved(self) -> Sequence[Target]:
        """Those of shares, which move in points."""
        return [each for each in self.changes if each.finding and each.finding.kind == "share"]


def known_of(
    view: BriefView,
    findings: Findings,
    facts: Sequence[Fact],
    earlier: Earlier = (),
    episode: Episode | None = None,
) -> Known:
    """Of a topic's view, findings and facts; what its `episode` says of no fact is known too."""
    told = list(findings.findings)
    targets = [*targets_of(view, told, facts)]
    terms = names_in(view, targets)
    now = {fact.id: fact.value for fact in facts}
    old = [
        target
        for edition, of in earlier
        for target in targets_of(view, told, of, edition)
        if target.fact and now.get(target.fact.id) != target.fact.value
    ]
    old = [replace(target, low=None, high=None) for target in old]
    targets += said_by_brief(findings, targets, episode)
    return Known(
        view, told, targets, old, terms, parts(), _banned(view, told), view.format.overs,
        _causes(view), _proper_names(view, told), _by_unit(targets), _by_unit(old),
    )  # fmt: skip


def _by_unit(targets: Iterable[Target]) -> dict[str, list[Target]]:
    found: dict[str, list[Target]] = {}
    for target in targets:
        for unit in units_of(target):
            found.setdefault(unit, []).append(target)
    return found


def _causes(view: BriefView) -> Causes:
    names = [view.event.name if view.event else "", *(other.name for other in view.also)]
    events = [words for name in names for words in (name, *view.words.called.get(name, ()))]
    said = " ".join([*synonyms.VALUES.values(), *synonyms.MEASURES, *view.measures])
    return Causes(
        events, f"{view.words.title} {view.words.question}", re.findall(r"[a-z]+", said.lower())
    )


def _banned(view: BriefView, findings: Sequence[Finding]) -> list[str]:
    lines: list[str] = []
    for beat in view.beats:
        mine = [each for each in findings if each.beat == beat.id and not each.refused]
        lines += dont_say(beat, mine, event_of(view, beat), view.format)
    return list(dict.fromkeys(lines))


def _proper_names(view: BriefView, findings: Iterable[Finding]) -> frozenset[str]:
    """Words with a capital that a script of the topic may have, in lower case."""
    texts = [view.words.title, view.words.question, view.event.name if
             view.event else "", *(beat.title or "" for beat in view.beats)]  # fmt: skip
    texts += [value for finding in findings for value in finding.values.values()]
    competition = view.words.data.competition or ()
    texts += [competition] if isinstance(competition, str) else list(competition)
    texts += [words for named in view.words.called.values() for words in named]
    words = {word for text in texts for word in text.replace("’", "'").lower().split()}
    return frozenset(word.strip(".,?!'\"()=").removesuffix("'s") for word in words)
