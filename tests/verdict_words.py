"""Words that tell a verdict, each allowed only where the finding's verdicts are those."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pipeline.contracts.finding import Finding, Groups, Player, Turn, control_of, drift_of
from pipeline.contracts.over_time import ControlCheck, Drift
from tests.claims import told, way

# What tells of the drift, of a step beside it or of a control tells nothing of the first verdict.
AND_SECOND = re.compile(
    r", and (?:that is a step|beside its drift|a step beside|whether it was already)[^.]*"
)
SECOND = re.compile(
    r"[^.?]*(?:drift|\bstep (?:up|down|beside|beyond)|been (?:rising|falling)|easured against)"
    r"[^.?]*[.?]?|We tested [\w\s-]+(?<! numbers), and[^.]*\.|Carried on[^.]*\.|"
    r"We can’t test that[^.]*\.|That points the[^.]*\.|"
    r"But if the trend itself[^.]*\.|But [^.]*\byardstick\b[^.]*\."
)
FIRST = {
    "held": re.compile(
        r"(?<!say it )(?<!call that )\bheld\b(?! still| against)|much the same|nearly the same|"
        r"where they were|hardly matters|about as far as each other|did little|"
        r"moved with (?:\w+’s|pace\b)|"
        r"\bis (?:worth )?under\b|by itself, but by little"
    ),
    "changed": re.compile(
        r"\b(?:rose|fell) (?:from|by)\b|the (?:rise|fall) is anywhere|gather (?:more|less)|"
        r"(?<!have )ended\b|part is (?:between|about|with)|Set against .* went|"
        r"by itself: (?:about|nearly|just|less)|\btook .* (?:up|down) by (?!itself)|"
        r"\bis (?:anywhere|about|nearly|just over|less than)[^.]* (?:higher|lower) at\b|"
        r"put (?:a|the) break"
    ),
    "can't tell": re.compile(
        r"can’t (?:call|say|settle|be called|tell)|doesn’t stand up|either way|name no season|"
        r"too little to say|no (?:figure|number)|could be anywhere|could have ended"
    ),
}
LOST = re.compile(r"Tested alone|as one of")
TIME = re.compile(
    r"\b(?:now|then|before|after|earlier|later|rose|fell|rise|fall|up|down|changed?|moved)\b",
    re.IGNORECASE,
)
PLACE = re.compile(r"\b(?:higher|lower) at\b|\bgrounds\b|same in both")
CAUSE = re.compile(
    r"\b(?:because|due to|thanks to|owing to|causes?|caused|led to|made|drove|as a result)\b"
)
STEP = {
    "beyond": re.compile(r"there is a step (up|down)|is a step (up|down)|that is a step beyond"),
    "open": re.compile(r"can’t show a step .*or rule one out|step .*neither shown nor ruled out"),
    "lost": re.compile(r"we’d call a step beside"),
    "untested": re.compile(r"We can’t test that:|already drifting we can’t test"),
}
OF_STEP = {
    "step_beyond_chance": "beyond",
    "step_lost_among_many": "lost",
    "step_within_chance": "open",
}
NO_DRIFT = re.compile(r"can’t show a drift|its drift, which we can’t show")
BENT = {
    "slope change": "trend itself turned just then",
    "quadratic": "trend itself was curving all along",
    "both": "trend itself was bending, and not straight",
}
STRAIGHT = "if that ran straight"
CONTROL = {
    "beyond_chance": re.compile(r"easured against [\w\s]+,? it is (up|down)"),
    "within_chance": re.compile(r"easured against [\w\s]+, we can’t show a change"),
    "lost_among_many": re.compile(r"easured against [\w\s]+, we’d call it a change alone"),
}


def wrong_words(text: str, finding: Finding, looks: bool = True) -> Iterator[str]:
    """Words of this text that say another first verdict than the finding has.

    An answer may leave out that it was one of many `looks`.
    """
    first = SECOND.sub(" ", AND_SECOND.sub("", text))
    yield from _first(first, finding)
    lost = "lost_among_many" in finding.because
    if (looks or not lost) and lost != bool(LOST.search(first)) and not _of_player(text, finding):
        yield f"{'no' if lost else 'a'} word of many looks"
    alone = re.search(r"Tested alone, we’d call (that held|them level)?", first)
    if alone and bool(alone[1]) != (finding.because == "held_lost_among_many"):
        yield f"{alone[0]}: {finding.because}"
    if found := CAUSE.search(text):
        yield f"a cause: {found[0]}"
    groups = isinstance(finding, Groups)
    if groups and (found := TIME.search(re.sub(r"anywhere up to|stand up", "", text))):
        yield f"of two groups: {found[0]}"
    if not groups and (found := PLACE.search(text)):
        yield f"of two windows: {found[0]}"
    place = finding.turn.event if isinstance(finding, Turn) and finding.turn else None
    if re.search(r"fits; it does not", text) and not (place and place.inside):
        yield "an event that fits, and is outside"
    if "came outside that" in text and (place is None or place.inside):
        yield "an event outside, and it is not"


def _of_player(text: str, finding: Finding) -> bool:
    """A player's own line tells him apart from the others, and no verdict."""
    return isinstance(finding, Player) and "apart from" in text


def _first(text: str, finding: Finding) -> Iterator[str]:
    heard = {name for name, words in FIRST.items() if words.search(text)}
    if _of_player(text, finding) and isinstance(finding, Player):
        apart = bool(finding.shrunk and finding.shrunk.apart)
        moved = bool(finding.shrunk and finding.shrunk.moved)
        if heard or ("not told apart" in text) == apart or ("than luck" in text) != moved:
            yield f"heard {sorted(heard)} of a player, apart: {apart}, moved: {moved}"
    elif heard != {finding.verdict}:
        yield f"heard {sorted(heard)} of one that is {finding.verdict}"


def wrong_second_words(text: str, finding: Finding) -> Iterator[str]:
    """Whether the second verdicts are told in full, once each and as they are."""
    drift, control = drift_of(finding), control_of(finding)
    heard = {name: found for name, words in STEP.items() if (found := words.search(text))}
    wanted = {OF_STEP.get(drift.because, "untested")} if drift else set()
    if set(heard) != wanted:
        yield f"heard {sorted(heard)} of a step that is {drift and drift.because}"
    yield from _step(heard.get("beyond"), finding)
    yield from _drift(text, finding, drift)
    yield from _turns(text, finding, drift)
    sides = {name: found for name, words in CONTROL.items() if (found := words.search(text))}
    if set(sides) != ({control.because} if control else set()):
        yield f"heard {sorted(sides)} of a control that is {control and control.because}"
    elif control and (beyond := sides.get("beyond_chance")):
        effect = control.effect
        value = effect.difference.value if finding.kind == "share" else effect.change.value
        if way(beyond[1]) * value <= 0:
            yield f"{beyond[0]}, of {value}"
    yield from _bent(text, drift)
    yield from _side_by_side(text, control)


def _bent(text: str, drift: Drift | None) -> Iterator[str]:
    """That a step goes beside a trend that bends, of a step that is told and only where it does."""
    lost = _lost(drift)
    wanted = {"both"} if len(lost) == 2 else set(lost)
    heard = {name for name, words in BENT.items() if words in text}
    if heard != wanted:
        yield f"heard {sorted(heard)} of a step that is lost beside {lost}"


def _lost(drift: Drift | None) -> list[str]:
    if drift is None or drift.test is None or drift.verdict != "beyond the drift":
        return []
    return [bend.shape for bend in drift.test.bends if bend.p >= 0.05 or not bend.survives]


def _side_by_side(text: str, control: ControlCheck | None) -> Iterator[str]:
    """A control is a poor yardstick where the two did not go the same way, and only there."""
    apart = bool(control and control.parallel and control.parallel.verdict == "not parallel")
    if ("poor yardstick" in text) != apart:
        yield f"a poor yardstick, of {control and control.parallel}"
    if not apart or control is None or control.parallel is None or control.parallel.slope is None:
        return
    gained = control.parallel.slope.value > 0
    if (f"But it had been gaining on {control.name}" in text) != gained:
        yield f"which gained on which, of {control.parallel.slope}"
    heard = re.search(r"there is still a jump (up|down) against it", text)
    told_of = control.step is not None and control.step_because == "step_beyond_chance"
    if bool(heard) != told_of:
        yield f"a jump against it, of {control.step_because}"
    elif heard and control.step and way(heard[1]) * control.step.step.value <= 0:
        yield f"{heard[0]}, of {control.step.step}"


def wrong_in_short(text: str, finding: Finding) -> Iterator[str]:
    """In one sentence: a step that is told is there, and of what changed all is told."""
    drift = drift_of(finding)
    heard = {name: found for name, words in STEP.items() if (found := words.search(text))}
    wanted = OF_STEP.get(drift.because, "untested") if drift else ""
    wanted = "open" if wanted == "lost" else wanted
    must = wanted == "beyond" or (wanted and finding.verdict == "changed")
    if set(heard) - {wanted} or (must and not heard and not finding.refused):
        yield f"heard {sorted(heard)} of a step that is {drift and drift.because}"
    yield from _step(heard.get("beyond"), finding)
    if (STRAIGHT in text) != bool("beyond" in heard and _lost(drift)):
        yield f"whether it ran straight, of a step that is lost beside {_lost(drift)}"


def _step(found: re.Match[str] | None, finding: Finding) -> Iterator[str]:
    """A step the way it is said to go: 'that is a step' goes the way of the change."""
    drift = drift_of(finding)
    if found and drift and drift.test:
        named = next((word for word in found.groups() if word), None)
        said = way(named) if named else _sign(told(finding).value)
        if said * drift.test.step.value <= 0:
            yield f"{found[0]}, of {drift.test.step}"


def _drift(text: str, finding: Finding, drift: Drift | None) -> Iterator[str]:
    """'had been rising' only of a drift whose interval leaves none out, 'no drift' of others."""
    slope = drift.test.slope if drift and drift.test else None
    said = re.search(r"had been (?:drifting )?(rising|falling|up|down)", text)
    none = bool(NO_DRIFT.search(text))
    if bool(said) != bool(slope and slope.way) or none != bool(slope and not slope.way):
        yield f"{said and said[0]}, no drift shown: {none}; of {slope}"
    elif said and slope and way(said[1]) != slope.way:
        yield f"{said[0]}, of {slope}"


def _turns(text: str, finding: Finding, drift: Drift | None) -> Iterator[str]:
    """What is said where step, drift and change do not go together."""
    change = _sign(told(finding).value) if finding.verdict == "changed" else 0
    test = drift.test if drift else None
    step = _sign(test.step.value) if test and drift and "beyond" in drift.verdict else 0
    if ("points the other way" in text) != (change * step < 0):
        yield f"points the other way, of a change {change} and a step {step}"
    later = re.search(r"yet the later number is (higher|lower)", text)
    drifting = test.slope.way if test else 0
    if later and (way(later[1]) != change or change * drifting >= 0):
        yield f"{later[0]}, of a change {change} and a drift {drifting}"
    if "staying level" in text and finding.verdict != "held":
        yield "staying level, of what was not held"


def _sign(value: float) -> int:
    return (value > 0) - (value < 0)
