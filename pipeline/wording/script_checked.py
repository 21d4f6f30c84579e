"""What a check of a script says, in words: of one number, of one claim, of the whole file."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import PurePath

from pipeline.contracts.script_check import (
    ClaimChecked,
    FileState,
    NumberChecked,
    Result,
    ScriptCheck,
)
from pipeline.wording import numbers

# What is wrong, and what makes the command fail; the others a person has to look at, or nobody.
TO_MEND: tuple[Result, ...] = (
    *("contradicted", "wrong direction", "wrong unit", "stale", "rounded too far"),
)
FAILING: tuple[Result, ...] = ("contradicted", "wrong direction", "wrong unit")
NO_NUMBER: Result = "not a statistic"
LONGEST_QUOTED = 120  # characters of a sentence that a line to publish repeats
_NOT_SHOWN = "That is more than the data show."


def fails(check: ScriptCheck) -> bool:
    """Whether a number of it says what the facts do not."""
    return any(one.result in FAILING for each in check.sentences for one in each.numbers)


def is_wrong(number: NumberChecked) -> bool:
    return number.result in TO_MEND


def state_of(check: ScriptCheck) -> FileState:
    """The check in short."""
    found = [one for each in check.sentences for one in each.numbers if one.result != NO_NUMBER]
    claims = [one for each in check.sentences for one in each.claims]
    return FileState(
        file=check.file,
        captions=check.captions,
        numbers=len(found),
        to_mend=sum(map(is_wrong, found)),
        claims=len(claims),
        to_check=sum(one.risk > 0 and not is_wrong(one) for one in found),
    )


def state_said(state: FileState, name: str = "") -> str:
    """'Script checked: 34 numbers, 3 to mend, 1 of them a claim; 3 for a person to check'.

    What is to be mended are wrong numbers and claims that go too far, as the check lists them.
    """
    what = ("Captions" if state.captions else "Script") + (f" {name}" if name else "")
    count = state.to_mend + state.claims
    mend = f"{count:,} to mend" if count else "none to mend"
    if state.claims:
        claims = "a claim that goes" if state.claims == 1 else "claims that go"
        mend += f", {state.claims:,} of them {claims} too far"
    parts = [f"{what} checked: {numbers.counted(state.numbers, 'number')}, {mend}"]
    if state.to_check:
        parts.append(f"{state.to_check:,} for a person to check")
    return "; ".join(parts)


def states_said(states: Sequence[FileState]) -> list[str]:
    """A line a file; of several scripts, or several captions, each with its name."""
    kinds = [state.captions for state in states]
    return [
        state_said(state, PurePath(state.file).name if kinds.count(state.captions) > 1 else "")
        for state in states
    ]


def number_told(number: NumberChecked) -> str:
    """What is to be known of a number beside its result: the fact, what is right, why."""
    parts = [f"of {number.edition}" if number.edition else ""]
    right, why = number.right, number.why.rstrip(".")
    parts += [f"say “{right}”" if right and is_wrong(number) and right not in why else ""]
    return "; ".join(filter(None, [*parts, why, _fact(number)]))


def claim_told(claim: ClaimChecked) -> str:
    """Why a claim says too much, and what could be said."""
    instead = f"say “{claim.instead}”" if claim.instead else ""
    return "; ".join(filter(None, [claim.why.rstrip("."), instead, claim.finding or ""]))


def _fact(number: NumberChecked) -> str:
    if not number.fact:
        return ""
    return f"{number.fact}, {number.verdict}" if number.verdict else number.fact


def correction_said(at: int, old: str, new: str | None) -> str:
    """A line for a video's description: '03:12 Correction: we say seven; it is eight.'."""
    instead = f"it is {new}" if new else "there is no such number"
    return f"{clock(at)} Correction: we say {old}; {instead}."


def number_corrected(at: int, number: NumberChecked) -> str:
    """The same of a number that was checked; of one that goes the wrong way which way, or side."""
    if number.corrected:
        return f"{clock(at)} Correction: we say {number.corrected}."
    return correction_said(at, number.said, number.right)


def claim_corrected(at: int, claim: ClaimChecked, sentence: str) -> str:
    """'03:12 Correction: we say “Because of ...”. The data show when and how much; ...'.

    A few words of a sentence say too little of what is taken back; a long sentence too much.
    """
    said = sentence if len(sentence) <= LONGEST_QUOTED else claim.said
    instead = _NOT_SHOWN if claim.kind == "don't say" else claim.why
    if claim.kind == "no caution":
        instead = claim.instead or "The data can’t tell this."
    return f"{clock(at)} Correction: we say “{said.rstrip('.')}”. {instead}"


def clock(milliseconds: int) -> str:
    """'03:12', or '1:03:12' from an hour on, as a video's description needs it."""
    minutes, seconds = divmod(milliseconds // 1000, 60)
    hours, rest = divmod(minutes, 60)
    return f"{hours}:{rest:02d}:{seconds:02d}" if hours else f"{minutes:02d}:{seconds:02d}"
