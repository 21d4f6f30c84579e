"""How fragile a headline is: in how many other ways it is the same, and what each is called."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from pipeline.contracts.codes import Stretch, Way
from pipeline.contracts.notes import OneCarries
from pipeline.contracts.panel import Choice, Panel
from pipeline.voice.sentence import Told
from pipeline.wording import numbers
from pipeline.wording.composition import lead
from pipeline.wording.labels import period_said
from pipeline.wording.windows import day_said

if TYPE_CHECKING:
    from pipeline.config.measure import Measure
    from pipeline.contracts.codes import Refusal, Verdict

# Ways that are drawn together, and what they are called there.
GROUPS: tuple[tuple[str, tuple[Way, ...]], ...] = (
    ("other windows", ("shorter", "longer")),
    ("without each {stretch}", ("period",)),
    ("without each ground", ("ground",)),
    ("without each side", ("side",)),
    ("other checks", ("reduced", "match", "scale", "like for like", "held still")),
)
LONG = 7  # words of an item, on the average: more take a comma before the 'or'
MOST_BOTH = 2  # ways that are both of them
THEN: dict[Verdict, str] = {
    "held": "it held",
    "changed": "it moved",
    "can't tell": "it can’t be told",
}


OTHER_WAY = "it goes the other way"


class Group(NamedTuple):
    """Ways of one kind, or of kinds that are told together."""

    name: str
    choices: list[Choice]

    @property
    def turned(self) -> list[Choice]:
        return [choice for choice in self.choices if not choice.same]


def groups_of(panel: Panel | None) -> list[Group]:
    """The ways by what they leave out, those groups that have any."""
    if panel is None:
        return []
    found = [
        Group(
            name.format(stretch=panel.stretch),
            [choice for choice in panel.choices if choice.kind in kinds],
        )
        for name, kinds in GROUPS
    ]
    return [group for group in found if group.choices]


def panel_said(
    panel: Panel | None, verdict: Verdict | None, measure: Measure, that: str = "the same"
) -> str:
    """'We worked it out nineteen ways, and eighteen of them showed a fall'; `that` is 'a fall'.

    What can't be told is "just as open", since no answer is the same. '' of a finding without a
    panel, or with no other way to ask it.
    """
    if panel is None or not panel.choices:
        return ""
    count, turned = numbers.said(len(panel.choices), 0), panel.turned
    still = ".open" if verdict == "can't tell" else ""
    if len(panel.choices) == 1:
        way = way_said(panel.choices[0], panel.stretch, measure)
        return Told(f"panel.one{still}{'.not' if turned else ''}", way=way)
    if not turned and len(panel.choices) == MOST_BOTH:
        return Told(f"panel.both{still}")
    if not turned:
        return (
            Told("panel.all.open", count=count)
            if still
            else Told("panel.all", count=count, that=that)
        )
    if not panel.same:
        return Told(f"panel.none{still}", count=count)
    same = numbers.said(panel.same, 0)
    if still:
        return Told("panel.some.open", same=same, count=count)
    return Told("panel.some", same=same, count=count, that=that)


def panel_title(panel: Panel | None) -> str:
    """The same as a frame's title, without its full stop."""
    if panel is None or not panel.choices:
        return "There is no number here to ask again" if panel is None else "No other way to ask it"
    if not panel.turned:
        return f"The same in all {len(panel.choices):,} ways of asking"
    return f"The same in {same_in(panel)} ways of asking"


def same_in(panel: Panel) -> str:
    """'17 of 19'."""
    return f"{panel.same:,} of {len(panel.choices):,}"


def same_in_said(panel: Panel) -> str:
    """'seventeen of nineteen'."""
    return f"{numbers.said(panel.same, 0)} of {numbers.said(len(panel.choices), 0)}"


def _then(verdict: Verdict, refused: Refusal | None) -> str:
    """What it comes to."""
    too_few = refused in ("no_balls", "few_matches")
    return "there are too few matches to tell" if too_few else THEN[verdict]


def either(items: Sequence[str]) -> str:
    """'a', 'a or b', 'a, b or c'; where they are long 'a, or b'."""
    if len(items) < 2:
        return "".join(items)
    long = sum(len(item.split()) for item in items) > LONG * len(items)
    stop = "," if long or any(" or " in item for item in items) else ""
    return f"{', '.join(items[:-1])}{stop} or {items[-1]}"


def way_said(choice: Choice, stretch: Stretch, measure: Measure) -> str:
    """One way as an adverb: 'without the 2018 season', 'with one season more before'."""
    match choice.kind:
        case "shorter" | "longer":
            more = "more" if choice.kind == "longer" else "fewer"
            return f"with one {stretch} {more} {_where(choice)}"
        case "reduced":
            return "without the shortened chases"
        case "match":
            return f"without one match, {_match_said(choice.what)}"
        case "scale":
            return (
                "with its error in per cent"
                if measure.kind == "share"
                else f"with its error in {measure.unit}"
            )
        case "like for like":
            return "like for like"
        case "held still":
            return lead("held still", choice.what.split(", "))
    return f"without {left_out(choice, choice.what, stretch)}"


def way_short(choice: Choice) -> str:
    """The same as a label, under the kind of way that it is: '2018', 'Quillport', '+1 before'."""
    match choice.kind:
        case "shorter" | "longer":
            return f"{'+' if choice.kind == 'longer' else numbers.MINUS}1 {_where(choice)}"
        case "reduced":
            return "without shortened chases"
        case "match":
            return "without one match"
        case "scale":
            return "other scale"
        case "like for like" | "held still":
            return choice.kind
    return choice.what


def _where(choice: Choice) -> str:
    return "on each side" if choice.what == "both" else choice.what


def left_out(told: Choice | OneCarries, name: str, stretch: Stretch) -> str:
    """A period, ground or side: 'the 2018 season', 'the matches at Moor Top', 'Quillport'."""
    if told.kind == "period":
        return f"the {name} season" if stretch == "season" else period_said(name)
    return f"the matches at {name}" if told.kind == "ground" else name


def carries_said(note: OneCarries, what: str) -> str:
    """What becomes of a headline, as a label `what`, without the one that carries it."""
    then = _then(note.verdict, note.refused)
    if note.other_way:
        then = OTHER_WAY
    name = left_out(note, note.name, note.stretch)
    matches = "the matches of " if note.kind == "side" else ""
    return f"{what}: leave {matches}{name} out, and {then}."


def _match_said(what: str) -> str:
    """'Quillport v Foxley on 12 May 2018'."""
    sides, _, day = what.rpartition(", ")
    on = f"on {day_said(date.fromisoformat(day))}"
    return f"{sides} {on}" if sides else f"the one {on}"
