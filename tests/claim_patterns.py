"""How claims are heard: the shapes of the sentences, each with what it is held against."""

from __future__ import annotations

import re

from tests import claims
from tests import claims_beside as beside
from tests.any_findings import Case
from tests.claims import ABOUT, UNIT, Check, Claim
from tests.listening import Heard, heard

WAY = "(?: (?P<way>up|down|higher|lower))"
NAMED = re.compile(r"overs \d+ to \d+|(?<=one )six(?= more| fewer)")
IDIOMS = (  # 'one' that counts nothing
    *("one this large", "rule one out", "Did one move", "any one season", "lean to one"),
    *("one point of the series", "one end of the series"),
    "one half-year to the next",
)


SHAPES: tuple[tuple[str, Check], ...] = (
    (
        rf"(?P<low>#)(?: {UNIT})? (?:down|lower) (?:and|to) (?P<high>#) (?:up|higher)",
        claims.both_sides,
    ),
    (
        rf"(?:from|between) (?P<near>#) (?:to|and) (?P<far>#) {UNIT}{WAY}?",
        claims.one_side,
    ),
    (rf"up to (?P<far>#) {UNIT}{WAY}?", claims.up_to),
    (rf"(?:step|it is) (?P<way>up|down): about (?P<size>#) {UNIT}", claims.as_one),
    (rf"(?:that is|part is|trend, is|ended) about (?P<size>#) {UNIT}{WAY}", claims.as_one),
    (rf"within (?P<most>#) {UNIT} of none", claims.near_none),
    (rf"\bis (?:worth )?under (?P<most>#) {UNIT}", claims.under),
    (
        rf"(?:(?P<way>rose|fell) by|against .* went (?P<way_>up|down)) {ABOUT}(?P<size>#) {UNIT}",
        claims.sized,
    ),
    (rf"\bis {ABOUT}(?P<size>#) {UNIT} (?P<way>higher|lower) at", claims.sized),
    (rf"took .* (?P<way>up|down) by {ABOUT}(?P<size>#) {UNIT}", claims.sized),
    (r"(?P<way>rose|fell|went) from (?P<a>#) .*\bto (?P<b>#)", claims.values),
    (r"(?:was|held:) (?P<a>#) .*before(?:, and|,) (?P<b>#) after", claims.values),
    (r"(?:was|held:) (?P<a>#) .*before(?:, and the same| and) after", claims.values),
    (r"make, (?P<a>#) came before, and (?:(?P<b>#)|about as many) after", claims.values),
    (r"(?:same|were): (?P<a>#) for each .*make(?: then, (?P<b>#) now)?", claims.values),
    (
        r"is (?:much the same: )?(?P<a>#) .*at inland grounds,(?: and)?(?: (?P<b>#))? at coast",
        claims.values,
    ),
    (
        rf"pace went (?P<way_a>up|down) {ABOUT.replace('about>', 'about_a>')}(?P<a>#) {UNIT}, spin "
        rf"(?P<way_b>up|down) {ABOUT.replace('about>', 'about_b>')}(?P<b>#)",
        claims.group,
    ),
    (rf"that is {ABOUT}(?P<size>#) [\w\s-]+ (?P<way>more|fewer)", beside.felt),
    (r"(?:more|fewer): (?P<overs>#) overs?(?: and (?P<balls>#) balls?)?", beside.overs),
    (r"In a spell of (?P<times>#) overs", beside.true),
    (rf"been (?P<way>rising|falling) by {ABOUT}(?P<size>#) per cent", beside.drift),
    (r"been drifting (?P<way>up|down)", beside.drift),
    (rf"comes to {ABOUT}(?P<size>#) per cent (?P<way>up|down)", beside.carried),
    (r"(?:tested|as (?P<one>#) of) (?P<count>#) (?:numbers|looks)", beside.family),
    (r"tested (?P<count>#), and", beside.family_of_steps),
    (r"(?:On|only) (?P<count>#) match(?:es)?", beside.matches),
    (
        r"(?P<count>#) (?:season|year|half-year|quarter|month)s? "
        r"(?P<when>before|after) it, and we ask for (?P<least>#)",
        beside.seasons,
    ),
    (r"(?P<count>#) (?:season has none|\w+ holds all) of it|(?P<one>#) \w+ outweighs", beside.true),
    (r"(?:a|the) break\b.* between (?P<last>#) and (?P<next>#)", beside.date),
    (r"second break, between (?P<again>#) and (?P<again_next>#)", beside.date),
    (r"early as after (?:the )?(?P<low>#).* late as after (?:the )?(?P<high>#)", beside.date),
    (r"(?P<one>#) name,|(?P<moved>#) of (?P<of>#) moved", beside.names),
    (r"outside that, in (?P<year>#)", beside.year),
    (r"^(?P<dates>#) dates were tried", beside.dates),
    (
        rf"took .* (?P<way>up|down)(?: by itself)?(?:, but by little)?: {ABOUT}(?P<size>#)",
        beside.part,
    ),
    (rf"bowled it comes to {ABOUT}(?P<size>#) .*(?P<way>up|down)", beside.part),
    (rf"apart from .* mean, {ABOUT}(?P<size>#) per cent (?P<way>up|down)", beside.mean),
    (r"about (?P<times>twice|three times|four times|half|a third of) what it was", beside.twice),
)
COMPILED = tuple((re.compile(shape), check) for shape, check in SHAPES)


def sentences(text: str) -> list[str]:
    """Sentences, and what a sentence says of a step after the rest."""
    ends = r"(?<=[.?!:]) (?=[A-Z“])|(?<=,) (?=and (?:that is a|beside|a step|whether) )"
    return re.split(ends, text)


def listened(sentence: str, case: Case) -> Heard:
    """A sentence with its numbers apart; those of names are none."""
    measure = case.measure
    plain = (measure.label, measure.said, measure.spoken, measure.unit, measure.counted)
    named = NAMED.findall(sentence)
    return heard(sentence, tuple(name for name in (*plain, *IDIOMS, *named) if name))


def subject_of(sentence: str, before: str) -> str:
    """Which of a finding's numbers a sentence speaks of; some go on from the one before."""
    if re.match(r"We tested #,", sentence):
        return before
    if "easured against" in sentence:
        return "control"
    if re.search(r"\bstep (?:up|down|beside|beyond|or)|drift", sentence):
        return "step"
    return "luck" if re.search(r"luck allowed for, that is ", sentence) else "change"


def wrong(text: str, case: Case) -> list[str]:
    """Every claim of a text that its finding's numbers do not carry, and every number unheard."""
    found, of = [], "change"
    for sentence in sentences(text):
        told = listened(sentence, case)
        of = subject_of(told.text, of)
        places = [at for at, letter in enumerate(told.text) if letter == "#"]
        open_still = set(places)
        for shape, check in COMPILED:
            for match in shape.finditer(told.text):
                parts = {
                    name: match.start(name) for name, part in match.groupdict().items() if part
                }
                heard_of = {
                    name.rstrip("_"): told.numbers[places.index(at)]
                    for name, at in parts.items()
                    if at in places
                }
                words = {name.rstrip("_"): match[name] for name in parts}
                open_still -= set(parts.values())
                claim = Claim(case, words, heard_of, told.text, of)
                found += [f"{sentence!r}: {fault}" for fault in check(claim)]
        found += [f"{sentence!r}: a number that nothing accounts for" for _ in open_still]
    return found
