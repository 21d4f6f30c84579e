"""What is said of a beat's findings, by its kind; a kind without words is an error."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from pipeline.contracts.finding import Finding
from pipeline.text import capitalised
from pipeline.wording import composition, second_verdict
from pipeline.wording.another_event import marked, now
from pipeline.wording.confidence import one_of_looks_said
from pipeline.wording.kinds import (
    before_after,
    gap,
    groups,
    mix,
    phases,
    players,
    share,
    streaks,
    trend,
    turning_point,
)
from pipeline.wording.kinds.base import KindWords
from pipeline.wording.labels import where_label
from pipeline.wording.shown_numbers import Card
from pipeline.wording.temptations import Temptation

if TYPE_CHECKING:
    from pipeline.config.event_views import NamedEvent
    from pipeline.config.kinds import AnyBeat
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format
    from pipeline.contracts.findings import PlayersList
    from pipeline.contracts.timing import Timing

WORDS: dict[str, KindWords] = {
    "before_after": before_after.WORDS,
    "gap": gap.WORDS,
    "groups": groups.WORDS,
    "mix": mix.WORDS,
    "phases": phases.WORDS,
    "players": players.WORDS,
    "share": share.WORDS,
    "streaks": streaks.WORDS,
    "trend": trend.WORDS,
    "turning_point": turning_point.WORDS,
}


def said(
    finding: Finding, beat: AnyBeat, measure: Measure, form: Format, event: NamedEvent | None
) -> list[str]:
    """The sentences of one finding; the same finding always has the same words."""
    return WORDS[beat.kind].said(finding, beat, measure, form, event)


def in_short(
    finding: Finding, beat: AnyBeat, measure: Measure, form: Format, event: NamedEvent | None
) -> str:
    """A changed finding in one sentence."""
    return WORDS[beat.kind].in_short(finding, beat, measure, form, event)


def breath(
    finding: Finding, beat: AnyBeat, measure: Measure, form: Format, event: NamedEvent | None
) -> str:
    """Both verdicts of any finding in one sentence, its subject named; or why there are none."""
    words = WORDS[beat.kind]
    if finding.refused:
        return " ".join(words.said(finding, beat, measure, form, event))
    tail = f"{second_verdict.in_short(finding)}{composition.in_short(finding)}"
    if finding.verdict == "changed":
        return f"{words.in_short(finding, beat, measure, form, event).removesuffix('.')}{tail}."
    if finding.verdict == "held":
        return f"{capitalised(words.stood(finding, beat, measure, form))}{tail}."
    among = f", as {found}," if (found := one_of_looks_said(finding)) else ""
    open_ = words.open(finding, beat, measure, form)
    return f"Whether {open_}{among or ','} these matches can’t settle{tail}."


def alone(
    finding: Finding, beat: AnyBeat, measure: Measure, form: Format, event: NamedEvent | None
) -> str:
    """The same where nothing says before it which event it is about."""
    return now(breath(finding, beat, measure, form, event), beat, event)


def found(
    finding: Finding, beat: AnyBeat, measure: Measure, form: Format, event: NamedEvent | None
) -> str:
    """What stands beside what people say: both verdicts, or of what is open both values."""
    if finding.refused or finding.verdict != "can't tell":
        return alone(finding, beat, measure, form, event)
    return now(WORDS[beat.kind].found_open(finding, beat, measure, form, event), beat, event)


def open_question(finding: Finding, beat: AnyBeat, measure: Measure, form: Format) -> str:
    """What can't be told of it, after 'whether'."""
    return WORDS[beat.kind].open(finding, beat, measure, form)


def named_open(finding: Finding, beat: AnyBeat, measure: Measure, form: Format) -> str:
    """What can't be told of it as a noun: 'spin’s economy', 'the gap in economy'."""
    return WORDS[beat.kind].named_open(finding, beat, measure, form)


def opening(
    own: Sequence[Finding], beat: AnyBeat, form: Format, listed: PlayersList | None
) -> list[str]:
    """What a list of players, or a mix of groups, says as a whole; of one measure's findings."""
    return WORDS[beat.kind].opening(own, beat, form, listed)


def may_say(finding: Finding, beat: AnyBeat) -> bool:
    """Whether it may be put into words though it is no headline."""
    return WORDS[beat.kind].may_be_said(finding)


def first_told(finding: Finding, beat: AnyBeat) -> bool:
    """Whether it is what its beat asks, so that it is told before what changed more surely."""
    return WORDS[beat.kind].is_told_first(finding)


def tempting(mine: Sequence[Finding], beat: AnyBeat, form: Format) -> list[Temptation]:
    """The sentences that its kind tempts to."""
    return list(WORDS[beat.kind].tempting(mine, beat, form))


def label(finding: Finding, beat: AnyBeat, form: Format) -> str:
    """The name of a finding's row."""
    return WORDS[beat.kind].label(finding, beat, form)


def grouped(finding: Finding, beat: AnyBeat, form: Format) -> tuple[str, str]:
    """What its row stands under beside rows of its kind ('' of none), and its name there."""
    return WORDS[beat.kind].grouped(finding, beat, form)


def row_name(finding: Finding, beat: AnyBeat, form: Format) -> str:
    """The same inside a sentence, where only names have capitals: 'spin, overs 11–40'."""
    words = WORDS[beat.kind]
    row, whole = words.after_its_measure(finding, beat, form), words.label(finding, beat, form)
    return row or f"{whole[:1].lower()}{whole[1:]}"


def sides(finding: Finding, beat: AnyBeat, form: Format) -> tuple[str, str]:
    """Names of the two sides in a chart or table: before and after, or the groups."""
    return WORDS[beat.kind].sides(finding, beat, form)


def headline_name(
    finding: Finding,
    beat: AnyBeat,
    measure: Measure,
    form: Format,
    event: NamedEvent | None = None,
) -> str:
    """What a headline's number is of, as a label: 'Economy, spin, overs 11–40'.

    With the `event` that its beat is about, where that may be another than the topic's own.
    """
    row = WORDS[beat.kind].after_its_measure(finding, beat, form)
    parts = (capitalised(measure.label), row, where_label(beat.where, form))
    return marked(", ".join(part for part in parts if part), beat, event)


def headings(beat: AnyBeat, measures: Mapping[str, Measure], form: Format) -> list[list[str]]:
    """What a beat without a title may be headed, the best first; of each, forms of it."""
    return WORDS[beat.kind].headings(beat, measures, form)


def heading_details(beat: AnyBeat, form: Format) -> list[str]:
    """What may be added to a heading that another beat has."""
    return WORDS[beat.kind].details(beat, form)


def under_rows(own: Sequence[Finding], beat: AnyBeat, measure: Measure) -> list[str]:
    """What is said once under numbers that a reader would take from one another."""
    return WORDS[beat.kind].under_rows(own, measure)


def of_list(own: Sequence[Finding], beat: AnyBeat, listed: PlayersList | None) -> list[str]:
    """What stands under the rows of a list of players and is not said."""
    return WORDS[beat.kind].of_list(own, beat, listed)


def change_heading(beat: AnyBeat) -> str:
    """What the column of differences holds."""
    return WORDS[beat.kind].change_heading


def extra_heading(beat: AnyBeat) -> str:
    """What the column beside the interval holds."""
    return WORDS[beat.kind].extra_heading


def extra_is_wide(beat: AnyBeat) -> bool:
    """Whether that column takes more room than a number."""
    return WORDS[beat.kind].wide


def extra(finding: Finding, beat: AnyBeat) -> str:
    """The cell of that column, of a finding that is not refused."""
    return WORDS[beat.kind].extra(finding)


def card(finding: Finding, beat: AnyBeat, measure: Measure, form: Format) -> Card:
    """A headline that is not refused, on the top sheet."""
    return WORDS[beat.kind].card(finding, beat, measure, form)


def tested(finding: Finding, beat: AnyBeat) -> str:
    """Size, interval and test of a finding that is not refused."""
    return WORDS[beat.kind].tested(finding)


def title(
    mine: Sequence[Finding],
    beat: AnyBeat,
    measure: Measure,
    headlines: Sequence[str],
    form: Format,
    event: NamedEvent | None,
) -> str:
    """A frame's title, of one measure's findings: one sentence without its full stop."""
    made = WORDS[beat.kind].title(mine, beat, measure, headlines, form, event)
    return marked(made, beat, event)


def compared(beat: AnyBeat, timing: Timing, blind: bool = False) -> str:
    """What a frame's subtitle adds to what is measured: the windows, or a point of the series."""
    return WORDS[beat.kind].compared(beat, timing, blind)


def measured(finding: Finding, beat: AnyBeat, measure: Measure, form: Format) -> str:
    """What the finding's number is of."""
    return WORDS[beat.kind].measured(finding, beat, measure, form)


def change_named(finding: Finding, beat: AnyBeat, measure: Measure, form: Format) -> str:
    """Its difference as a noun, without the value."""
    return WORDS[beat.kind].change_named(finding, beat, measure, form)


def side_named(
    finding: Finding,
    at: int,
    beat: AnyBeat,
    measure: Measure,
    form: Format,
    event: NamedEvent | None,
) -> str:
    """The value of its first (0) or second side (1) as a noun."""
    return WORDS[beat.kind].side_named(finding, at, beat, measure, form, event)
