"""What a number is of, as it is said: 'spin’s economy in the middle overs'."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal

from pipeline.config.cuts import CUTS, Cut
from pipeline.config.sums import parse_sum
from pipeline.contracts.finding import Finding
from pipeline.text import listed, possessive
from pipeline.wording.labels import TAGGED, overs_label, together, value_label

if TYPE_CHECKING:
    from pipeline.config.kinds.base import AnyKind
    from pipeline.config.measure import Measure
    from pipeline.config.project import Format

    Whose = Literal["bat", "bowl", ""]
    Chosen = Mapping[str, list[str]]  # values by cut

# Who owns a number where several could, the narrowest first.
OWNERS = (
    *("bowler", "batter", "bowler_tag", "batter_tag", "batting_team", "bowling_team"),
    *("bowler_kind", "bowler_arm", "batter_hand"),
)
PEOPLE = {"bowler", "batter", *TAGGED}
OVERS = {"overs", "phase", "band"}
KIND, ARM = "bowler_kind", "bowler_arm"
SIDES = {"batting_team", "bowling_team"}
# What only one side's players can count.
BOWLED = {"runs_bowler", "bowler_wickets", "wides", "noballs"}
BATTED = {"runs_batter", "runs_total", "faced", "four", "six", "wickets", "won"}
AT_HOME = {"home": "at home", "away": "away from home"}  # of a side that is named


def subject(finding: Finding, beat: AnyKind, measure: Measure, form: Format) -> str:
    """The measure with its owner, and where and for whom; no value is in it."""
    return cell_subject(finding.values, beat, measure, form)


def cell_subject(
    values: Mapping[str, str], beat: AnyKind, measure: Measure, form: Format, bare: bool = False
) -> str:
    """The measure of a cell's balls; a share of the balls has its owner in its own name.

    `bare` it is a label, not the beginning of a sentence: 'run rate', not 'the run rate'.
    """
    fixed = _fixed(values, beat)
    whose = whose_number(measure)
    owner = None if beat.counted or _is_its_unit(measure) else _owner(fixed, whose, form)
    where = _where(fixed, beat, whose, owner, form)
    if owner is None:
        return " ".join([measure.label if bare else measure.said or measure.label, *where])
    return " ".join([f"{possessive(_owning(owner, fixed, form))} {measure.label}", *where])


def balls_of(values: Mapping[str, str], form: Format) -> str:
    """A cell's balls: 'spin in the middle overs', 'balls at coast grounds'."""
    fixed = {cut: [value] for cut, value in values.items()}
    owner = _owner(fixed, "", form)
    named = _owning(owner, fixed, form) if owner else "balls"
    return " ".join([named, *in_order(_phrases(fixed, "", owner, form))])


def where_said(beat: AnyKind, form: Format) -> str:
    """A beat's filter in a sentence: ' in the middle overs'; '' when it takes every ball."""
    where = _where(_fixed({}, beat), beat, "", None, form)
    return "".join(f" {part}" for part in where)


def phrase(cut: str, values: list[str], form: Format, whose: Whose = "") -> str:
    """A filter or a cell in a sentence: 'at coast grounds', 'in the middle overs'."""
    if cut == "phase":
        phases = [form.phases.get(value) for value in values]
        said = [phase.said for phase in phases if phase and phase.said]
        if len(said) == len(values):
            return listed(said)
    told = CUTS[cut]
    if set(values) & set(told.phrases):
        return listed([_phrased(cut, [value], form, whose) for value in values])
    return _phrased(cut, values, form, whose)


def _phrased(cut: str, values: list[str], form: Format, whose: Whose) -> str:
    told = CUTS[cut]
    if len(values) == 1 and values[0] in told.phrases:
        return told.phrases[values[0]]
    named = together([_named(cut, value, form) for value in values])
    return _form_of(told, whose).format(named)


def _form_of(told: Cut, whose: Whose) -> str:
    """How its values follow a number: a batting side's own, or the bowlers' against it."""
    if whose and told.side:
        own = "for {}" if told.row != "{}" else told.phrase
        return own if told.side == whose else told.against
    return told.phrase


def _named(cut: str, value: str, form: Format) -> str:
    """A value in a sentence: 'overs 11 to 40', 'the openers', 'wrist spin bowling'."""
    if cut in PEOPLE and value in form.said:
        return form.said[value]
    label = value_label(cut, value, form).replace("–", " to ")
    if cut == "bowler_style" and value not in CUTS[cut].labels and not label.endswith("spin"):
        return f"{label} bowling"
    return label


def whose_number(measure: Measure) -> Whose:
    """Whether the bowlers or the batters make it; '' where both do, as with dot balls."""
    sums = {
        name for part in (measure.numerator, measure.denominator) for _, name in parse_sum(part)
    }
    if sums & BOWLED:
        return "bowl"
    return "bat" if sums & BATTED else ""


def _is_its_unit(measure: Measure) -> bool:
    """Whether its name is a count, which nobody owns: 'sixes an innings'."""
    return measure.label == measure.unit


def _fixed(values: Mapping[str, str], beat: AnyKind) -> dict[str, list[str]]:
    """The values of every cut that a cell, or the beat's filter, holds fixed."""
    fixed = {cut: [value] for cut, value in values.items()}
    return fixed | {cut: kept for cut, kept in beat.where.chosen().items() if cut not in fixed}


def _owner(fixed: Chosen, whose: Whose, form: Format) -> str | None:
    """The cut that the number is said to be of, the narrowest."""
    may = (cut for cut in OWNERS if _may_own(cut, fixed.get(cut, []), whose, form))
    return next(may, None)


def is_owned(cut: str, measure: Measure) -> bool:
    """Whether values of the cut own such a number: 'spin’s economy'."""
    whose = whose_number(measure)
    return cut in OWNERS and not _is_its_unit(measure) and whose in ("", CUTS[cut].side)


def _may_own(cut: str, values: list[str], whose: Whose, form: Format) -> bool:
    """Bowlers own what bowlers make, batters what batters make; what both make is a player's."""
    if not values or "unknown" in values:
        return False
    if cut in TAGGED and not all(value in form.said for value in values):
        return False
    return whose == CUTS[cut].side or (not whose and cut not in SIDES)


def _owning(owner: str, fixed: Chosen, form: Format) -> str:
    """'spin', 'left-arm spin', 'the openers'."""
    named = together([_named(owner, value, form) for value in fixed[owner]])
    return f"{_before(fixed)} {named}" if owner == KIND and ARM in _joined(fixed) else named


def _joined(fixed: Chosen) -> Chosen:
    """The arm, where it goes before the kind: 'left-arm spin'."""
    known = set(fixed.get(ARM, [])) <= set(CUTS[ARM].adjectives)
    return {ARM: fixed[ARM]} if ARM in fixed and known and KIND in fixed else {}


def _before(fixed: Chosen) -> str:
    return listed([CUTS[ARM].adjectives[value] for value in fixed[ARM]])


def _where(
    fixed: Chosen, beat: AnyKind, whose: Whose, owner: str | None, form: Format
) -> list[str]:
    """What follows the number: against whom, in which overs, then when and where."""
    told = _phrases(fixed, whose, owner, form)
    if beat.where.overs:
        told.append(("overs", f"in {overs_label(*beat.where.overs)}".replace("–", " to ")))
    return in_order(told)


def in_order(told: list[tuple[str, str]]) -> list[str]:
    """Phrases by cut: players first, then overs, then the rest."""

    def place(of: tuple[str, str]) -> int:
        cut, _ = of
        return 1 if cut in OVERS else 0 if CUTS[cut].side else 2

    return [words for _, words in sorted(told, key=place)]


def _phrases(fixed: Chosen, whose: Whose, owner: str | None, form: Format) -> list[tuple[str, str]]:
    """The phrase of each cut that does not own the number."""
    side = CUTS[owner].side if owner else whose
    left = [cut for cut in CUTS if cut in fixed and cut not in (owner, *_joined(fixed))]
    own_first = sorted(left, key=lambda cut: CUTS[cut].side != side)
    return [(cut, _told(cut, fixed, side, form)) for cut in own_first]


def _told(cut: str, fixed: Chosen, side: Whose, form: Format) -> str:
    if cut == "home" and "batting_team" in fixed:
        return at_home(fixed[cut])
    if cut == KIND and ARM in _joined(fixed) and "unknown" not in fixed[KIND]:
        return _form_of(CUTS[cut], side).format(_owning(cut, fixed, form))
    return phrase(cut, fixed[cut], form, side)


def at_home(values: list[str]) -> str:
    """Whose ground it is, beside a side that is named as batting."""
    return listed([AT_HOME.get(value, CUTS["home"].phrases.get(value, value)) for value in values])


def group_said(beat: AnyKind, value: str, measure: Measure, form: Format) -> str:
    """One of a beat's two groups at the end of a clause: 'at coast grounds', 'away from home'."""
    cut, _, _ = two_groups(beat)
    if cut == "home" and beat.where.batting_team:
        return at_home([value])
    return phrase(cut, [value], form, whose_number(measure))


def two_groups(beat: AnyKind) -> tuple[str, str, str]:
    """(the cut, its two values) of a beat that holds two groups against each other."""
    if beat.groups is None:
        raise ValueError(f"beat '{beat.id}' has no two groups")
    return beat.groups


def balls_where(beat: AnyKind, form: Format) -> str:
    """A beat's filter as a noun: 'spin in the middle overs', 'the middle overs'; '' of all."""
    fixed = _fixed({}, beat)
    owner = _owner(fixed, "", form)
    rest = _where(fixed, beat, "", owner, form)
    if owner:
        return " ".join([_owning(owner, fixed, form), *rest])
    if len(rest) == 1 and rest[0].startswith("in "):
        return rest[0].removeprefix("in ")
    if set(beat.where.given()) <= OVERS and rest:
        return " ".join(["the overs", *rest])
    return " ".join(["balls", *rest]) if rest else ""
