"""Words that tell a verdict, each allowed only where the finding's verdicts are those."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pipeline.contracts.finding import Finding, Groups, Player, Turn, control_of, drift_of
from pipeline.contracts.over_time import ControlCheck, Drift
from tests.claims import told, way

# What tells of the drift, of a step beside it or of a control tells nothing of the first verdict.
AND_SECOND = re.compile(
    r", (?:and (?:that is a step|beside its drift|a step beside)|though we can’t test)[^.]*"
)
OF_DRIFT = re.compile(
    r"\bdrift|\bstep\b(?! there)|been (?:rising|falling)|can’t test\b|no testing\b|on its way|"
    r"Not that we can show|trend (?:itself|ran|turned|was)|straight trend|straight line|"
    r"^(?:Carried on|Keep that going|Run that on|Stretch that out)",
    re.IGNORECASE,
)
AGAINST_THAT = re.compile(r"gainst that\b(?! drift)")
OF_CONTROL = re.compile(
    r"gainst that\b(?! drift)|against it\b|easured against|yardstick|gaining on"
)
# Between sentences, and where a sentence stands in the place of a name.
ENDS = re.compile(r"(?<=[.?!]) (?=[A-Z“])")
FIRST = {
    "held": re.compile(
        r"(?<!say it )(?<!call that )\bheld\b(?! still| against)|much the same|nearly the same|"
        r"where they were|(?<!which )hardly (?:matters|moved|parted|a gap|a difference)|"
        r"about as far as (?:each|the) other|"
        r"did little|moved with (?:\w+’s|pace\b)|stayed (?:put|about)|stood still|as good as level|"
        r"moved together, or close|not much (?:in it|between)|struggle to tell|"
        r"much further than the other|about the same distance|call them level: any|more or less|"
        r"\b(?:is|it’s) (?:worth )?(?:under|less than|smaller than)(?![^.]* (?:higher|lower))|"
        r"^(?:by )?less than|\bbut only a little|moved by less than",
        re.IGNORECASE | re.MULTILINE,
    ),
    "changed": re.compile(
        r"\b(?:rose|fell|climbed|dropped)\b|(?:up went|down came|came down)\b|"
        r"\bwent (?:up|down)(?:, from|\.)|\bwent up by\b|\bit went (?:up|down):|: (?:up|down) from|"
        r"\bthe (?:rise|fall) is|still a (?:rise|fall|gap)|a real (?:rise|fall|gap|difference)|"
        r"how (?:big|wide) a (?:rise|fall|gap)|(?:rise|fall|gap|difference) we can call|"
        r"that’s more than luck|there’s a (?:rise|fall) in|that’s a (?:rise|fall)\b|"
        r"the gap is (?!under)|gather (?:more|less)|"
        r"\bwas (?:anywhere|about|nearly|just over|within)|"
        r"part is (?:between|about|with)|Set against .* went|"
        r"by itself: (?:about|nearly|just|less)|\btook .* (?:up|down) by (?!itself)|"
        r"\btook (?!it the)[^:]*(?:up|down)(?: by itself)?:|"
        r"\bis (?:about|nearly|just over|less than)[^.]* (?:higher|lower) at\b|"
        r"it’s (?:anywhere|about|within)[^.]* (?:higher|lower)|"
        r"put (?:a|the) break",
        re.IGNORECASE,
    ),
    "can't tell": re.compile(
        r"can’t(?! show| be told| test| say what part| put)|Not that we can tell|won’t settle|"
        r"isn’t (?:quite )?enough|"
        r"either way|none stands out|no [\w-]+ stands out|too little to say|"
        r"no (?:figure|number)\b|\bcould (?:be|have)\b(?! (?:a|as|in)\b)|(?:it|one|that) may\b",
        re.IGNORECASE,
    ),
}
LOST = re.compile(
    r"numbers (?:we )?(?:tested|to test)|\bwe tested\b|as one of|"
    r"\b(?:test|among) [\w -]+ numbers",
    re.IGNORECASE,
)
TIME = re.compile(
    r"\b(?:now|then|before|after|earlier|later|rose|fell|rise|fall|up|down|changed?|moved)\b",
    re.IGNORECASE,
)
PLACE = re.compile(r"\b(?:higher|lower) at\b|\bgrounds\b(?! (?:differ|aren’t))|same in both")
CAUSE = re.compile(
    r"\b(?:because|due to|thanks to|owing to|causes?|caused|led to|made|drove|as a result)\b"
)
OF_STEP = {
    "step_beyond_chance": "beyond",
    "step_lost_among_many": "lost",
    "step_within_chance": "open",
}
NO_DRIFT = re.compile(
    r"can’t show (?:a|any) drift|"
    r"no drift(?: in the gap between them)? (?:that )?(?:we can show|shows)|"
    r"not that we can show|looked for a drift [\w ’-]+ and can’t show one|"
    r"there was a drift [\w ’-]+, we can’t show it|"
    r"a drift [\w ’-]+\? We can’t show a drift",
    re.IGNORECASE,
)
# A step that goes the way of its drift, and one that goes against it.
WITH_IT = re.compile(
    r"On top of that there’s a step|Beyond that there’s a step|step (?:up|down) as well|"
    r"step (?:up|down), on top of that|More than that, it took|still a step (?:up|down)"
)
AGAINST_THE_DRIFT = re.compile(
    r"gainst that drift,? (?:there’s|it’s) a step|step (?:up|down),? against (?:that|the) drift|"
    r"The step goes the other way"
)
BENT = {
    "slope change": "turned just then",
    "quadratic": "was curving all along",
    "both": "was bending, and not straight",
}
STRAIGHT = "if that ran straight"


def first_of(text: str, finding: Finding) -> str:
    """What is left of a text without what it says of the drift and of the control."""
    control = control_of(finding)

    def second(sentence: str) -> bool:
        if finding.refused:
            return False
        if control and (control.name in sentence or OF_CONTROL.search(sentence)):
            return True
        return bool(OF_DRIFT.search(sentence))

    kept = [one for one in ENDS.split(AND_SECOND.sub("", text)) if not second(one)]
    return "\n".join(kept)


def heard_steps(text: str) -> dict[str, re.Match[str]]:
    """What a text says of a step beside the drift: which of the outcomes, and the words for it."""
    heard: dict[str, re.Match[str]] = {}
    for sentence in ENDS.split(text):
        for name, words in STEP.items():
            if found := words.search(sentence):
                heard.setdefault(name, found)
                break
    return heard


STEP = {  # the first that fits is what a sentence says
    "bent": re.compile(r"couldn’t call it a step|lean on neither"),
    "beyond": re.compile(r"\bstep (up|down)\b|that is a step beyond"),
    "untested": re.compile(r"can’t test\b|no testing\b"),
    "in short": re.compile(r"neither shown nor ruled out"),
    "lost": re.compile(
        r"(?:by itself|alone)\b[^.]*\bstep|\bstep\b[^.]*by itself|like a step|"
        r"tested [^.]*for a step",
        re.IGNORECASE,
    ),
    "open": re.compile(
        r"\bstep\b(?! there)[^.?]*\b(?:can’t|may not|rule|could)|"
        r"(?:can’t|nor can we)[^.?]*\bstep\b(?! there)",
        re.IGNORECASE,
    ),
}


def heard_controls(text: str, control: ControlCheck | None) -> dict[str, re.Match[str]]:
    """What a text says of the change beside a control's: which outcome, and the words for it."""
    if control is None:
        found = re.search("easured against", text)
        return {"of none": found} if found else {}
    heard: dict[str, re.Match[str]] = {}
    for sentence in ENDS.split(text):
        if control.name in sentence or AGAINST_THAT.search(sentence):
            for name, words in CONTROL.items():
                if found := words.search(sentence):
                    heard.setdefault(name, found)
                    break
    if "lost_among_many" in heard:
        heard.pop("within_chance", None)
    return heard


CONTROL = {
    "yardstick": re.compile(r"gaining on"),
    "beyond_chance": re.compile(
        r"(?:it’s|that’s|comes out|it went) (up|down)\b(?!.*\bit’s (?:up|down))"
    ),
    "lost_among_many": re.compile(
        r"by itself|looks like a change|(?:with|among) so many|one of many"
    ),
    "within_chance": re.compile(r"can’t\b"),
}


def wrong_words(text: str, finding: Finding, looks: bool = True) -> Iterator[str]:
    """Words of this text that say another first verdict than the finding has.

    An answer may leave out that it was one of many `looks`.
    """
    first = first_of(text, finding)
    yield from _first(first, finding)
    lost = "lost_among_many" in finding.because
    if (looks or not lost) and lost != bool(LOST.search(first)) and not _of_player(text, finding):
        yield f"{'no' if lost else 'a'} word of many looks"
    level = re.search(r"(?:say it held|call (?:them|that) level|say there’s none)", first)
    if (
        LOST.search(first)
        and "as one of" not in first
        and bool(level) != (finding.because == "held_lost_among_many")
    ):
        yield f"alone: {level and level[0]}, of {finding.because}"
    if found := CAUSE.search(text):
        yield f"a cause: {found[0]}"
    groups = isinstance(finding, Groups)
    if groups and (found := TIME.search(re.sub(r"anywhere up to", "", text, flags=re.IGNORECASE))):
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
    heard = heard_steps(text)
    wanted = {OF_STEP.get(drift.because, "untested")} if drift else set()
    if set(heard) - {"bent"} != wanted:
        yield f"heard {sorted(heard)} of a step that is {drift and drift.because}"
    yield from _step(heard.get("beyond"), finding)
    yield from _drift(text, finding, drift)
    yield from _turns(text, finding, drift)
    sides = heard_controls(text, control)
    if set(sides) - {"yardstick"} != ({control.because} if control else set()):
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
    if (f"it had been gaining on {control.name}" in text) != gained:
        yield f"which gained on which, of {control.parallel.slope}"
    heard = re.search(r"there’s (?:still )?a jump (up|down) against it", text)
    told_of = control.step is not None and control.step_because == "step_beyond_chance"
    if bool(heard) != told_of:
        yield f"a jump against it, of {control.step_because}"
    elif heard and control.step and way(heard[1]) * control.step.step.value <= 0:
        yield f"{heard[0]}, of {control.step.step}"


def wrong_in_short(text: str, finding: Finding) -> Iterator[str]:
    """In one sentence: a step that is told is there, and of what changed all is told."""
    drift = drift_of(finding)
    heard = {} if finding.refused else heard_steps(text)
    wanted = OF_STEP.get(drift.because, "untested") if drift else ""
    wanted = "in short" if wanted in ("lost", "open") else wanted
    bent = heard.pop("bent", None)
    must = wanted == "beyond" or (wanted and finding.verdict == "changed")
    if set(heard) - {wanted} or (must and not heard and not finding.refused):
        yield f"heard {sorted(heard)} of a step that is {drift and drift.because}"
    yield from _step(heard.get("beyond"), finding)
    if bool(bent or STRAIGHT in text) != bool("beyond" in heard and _lost(drift)):
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
    if ("lean on neither" in text) != (change * step < 0):
        yield f"points the other way, of a change {change} and a step {step}"
    later = re.search(r"the later number is (higher|lower)", text)
    drifting = test.slope.way if test else 0
    if later and (way(later[1]) != change or change * drifting >= 0):
        yield f"{later[0]}, of a change {change} and a drift {drifting}"
    same_way, against = WITH_IT.search(text), AGAINST_THE_DRIFT.search(text)
    if (same_way and step * drifting <= 0) or (against and step * drifting >= 0):
        yield f"{(same_way or against or [''])[0]}, of a step {step} and a drift {drifting}"
    still = re.search(r"staying level|standing still|going nowhere", text, re.IGNORECASE)
    if still and finding.verdict != "held":
        yield "staying level, of what was not held"


def _sign(value: float) -> int:
    return (value > 0) - (value < 0)
