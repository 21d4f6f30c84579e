"""How claims are heard: the shapes of the sentences, each with what it is held against."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pipeline.contracts.finding import Finding, Player, control_of
from tests import claims
from tests import claims_beside as beside
from tests.any_findings import Case
from tests.claims import ABOUT, UNIT, Check, Claim
from tests.listening import Heard, heard

WAY = "(?: (?P<way>up|down|higher|lower))"
NAMED = re.compile(r"overs \d+ to \d+|(?<=one )six(?= more| fewer)")
IDIOMS = (  # 'one' that counts nothing
    *("one this large", "rule one out", "Did one move", "any one season", "lean to one"),
    *("one point of the series", "one end of the series", "one half-year to the next"),
    *("that one", "this one", "show one"),
    *("one way or the other", "one other way", "call this one", "test for one", "one catch"),
    "the two groups",
    *("there is one", "one moved", "one may", "whether one", "one another", "only one left"),
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
    (
        r"(?:^(?!.*\b(?:took(?! a step)|in all|all told|overall|was bowling|mean)\b)[^#]*[:,] |^|"
        r"\b(?:it|rise|fall|change|gap|truth|fits|part|that|trend,|there) is |\bbe |\bit’s |"
        rf"\bwas |\bbeen )about (?P<size>#) {UNIT}{WAY}?",
        claims.as_one,
    ),
    (rf"within (?P<most>#) {UNIT} of none", claims.near_none),
    (
        r"(?:^|\b(?:is|it’s|worth|moved by|by) )(?<!rose by )(?<!fell by )(?<!rising by )"
        rf"(?<!falling by )(?:under|less than|smaller than) (?P<most>#) {UNIT}"
        r"(?! (?:up|down|higher|lower|a ))",
        claims.under,
    ),
    (
        rf"(?:(?P<way>rose|fell) by|set against .* went (?P<way_>up|down)) "
        rf"{ABOUT}(?P<size>#) {UNIT}",
        claims.sized,
    ),
    (rf"\bis {ABOUT}(?P<size>#) {UNIT} (?P<way>higher|lower) at", claims.sized),
    (rf"took (?!a step).* (?P<way>up|down) by {ABOUT}(?P<size>#) {UNIT}", claims.sized),
    (
        rf"pace\b[^#]*? (?:went )?(?P<way_a>up|down) "
        rf"{ABOUT.replace('about>', 'about_a>')}(?P<a>#) {UNIT}"
        r"[^#]*?[,;]?(?: and| while)? [^#]*?\bspin\b[^#]*? (?:went )?"
        rf"(?P<way_b>up|down) {ABOUT.replace('about>', 'about_b>')}(?P<b>#)",
        claims.group,
    ),
    (rf"{ABOUT}(?P<size>#) [\w\s-]+? (?P<way>more|fewer)\b", beside.felt),
    (
        r"(?:more|fewer)\b[^#]*?(?<!every )(?<!those )(?P<overs>#) overs?"
        r"(?: and (?P<balls>#) balls?)?",
        beside.overs,
    ),
    (r"every (?P<times>#) overs", beside.true),
    (rf"been (?P<way>rising|falling)\b[^#]* by {ABOUT}(?P<size>#) per cent", beside.drift),
    (r"been drifting (?P<way>up|down)", beside.drift),
    (rf"\b{ABOUT}(?P<size>#) per cent (?P<way>up|down)", beside.carried),
    (
        r"(?P<count>#) (?:main )?(?:numbers|looks)(?! (?:tested )?for a step)",
        beside.family,
    ),
    (
        r"we tested (?P<count>#) numbers for a step|"
        r"(?:with|_one_of_) (?P<count_>#) numbers tested for a step",
        beside.family_of_steps,
    ),
    (r"(?P<count>#) match(?:es)?(?! holds)", beside.matches),
    (
        r"(?P<count>#) (?:season|year|half-year|quarter|month)s? "
        r"from (?P<when>before|after), and the test needs (?P<least>#)",
        beside.seasons,
    ),
    (r"(?P<count>#) (?:season has none|\w+ holds all) of it|(?P<one>#) \w+ outweighs", beside.true),
    (r"(?:a|the) break\b.* between (?P<last>#) and (?P<next>#)", beside.date),
    (r"second break, between (?P<again>#) and (?P<again_next>#)", beside.date),
    (r"early as after (?:the )?(?P<low>#).* late as after (?:the )?(?P<high>#)", beside.date),
    (r"(?P<one>#) name,|(?P<moved>#) of (?P<of>#) moved", beside.names),
    (r"outside that[^#]* in (?P<year>#)", beside.year),
    (r"(?P<dates>#) dates\b", beside.dates),
    (
        r"took (?!a step).* (?P<way>up|down)(?: by itself)?(?:, but only a little)?: "
        rf"{ABOUT}(?P<size>#)",
        beside.part,
    ),
    (rf"was bowling(?: alone)? comes to {ABOUT}(?P<size>#) .*(?P<way>up|down)", beside.part),
    (rf"apart from .* mean, {ABOUT}(?P<size>#) per cent (?P<way>up|down)", beside.mean),
    (r"about (?P<times>twice|three times|four times|half|a third of) what it", beside.twice),
)
AGAINST_IT = re.compile(r"gainst that\b(?! drift)")
CARRIED = re.compile(
    r"^(?:That drift|By itself, that drift|Run on, that drift|Left to run, that drift|"
    r"Carried on, that drift|Let that drift)"
)


COMPILED = tuple((re.compile(shape, re.IGNORECASE), check) for shape, check in SHAPES)


def sentences(text: str) -> list[str]:
    """Sentences, and what a sentence says of a step after the rest."""
    ends = r"(?<=[.?!:]) (?=[A-Z“])|(?<=,) (?=and (?:that is a|beside|a step) |though we)"
    return re.split(ends, text)


def listened(sentence: str, case: Case) -> Heard:
    """A sentence with its numbers apart; those of names are none."""
    measure = case.measure
    plain = (measure.label, measure.said, measure.spoken, measure.unit, measure.counted)
    named = NAMED.findall(sentence)
    sentence = re.sub(r"\bone of (?!a )", "_one_of_ ", sentence, flags=re.IGNORECASE)
    return heard(sentence, tuple(name for name in (*plain, *IDIOMS, *named) if name))


def subject_of(sentence: str, finding: Finding) -> str:
    """Which of a finding's numbers a sentence speaks of."""
    control = control_of(finding)
    if control and (control.name in sentence or AGAINST_IT.search(sentence)):
        return "control"
    if CARRIED.search(sentence):
        return "carried"
    if re.search(r"\bstep\b(?! there)|drift|been (?:rising|falling)", sentence):
        return "step"
    luck = isinstance(finding, Player) and re.search(r"\bluck\b.*, (?:and )?that is ", sentence)
    return "luck" if luck else "change"


def wrong(text: str, case: Case) -> list[str]:
    """Every claim of a text that its finding's numbers do not carry, and every number unheard."""
    found, before = [], ""
    for sentence in sentences(text):
        told = listened(sentence, case)
        of = subject_of(sentence, case.finding)
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
                if parts and not _leaves_open(check, of):
                    open_still -= set(parts.values())
                claim = Claim(case, words, heard_of, told.text, of, before)
                found += [f"{sentence!r}: {fault}" for fault in check(claim)]
        found += _values(sentence, sorted(open_still), places, told, case)
        before = told.text
    return found


def _leaves_open(check: Check, of: str) -> bool:
    """A size of what the drift comes to is told as that alone."""
    return (check is beside.carried) != (of == "carried") and check in (
        beside.carried,
        claims.as_one,
        claims.one_side,
    )


def _values(
    sentence: str, left: list[int], places: list[int], told: Heard, case: Case
) -> Iterator[str]:
    """The numbers that nothing else accounts for: both values, the first before the second."""
    if not left:
        return
    if len(left) > 2:
        yield f"{sentence!r}: a number that nothing accounts for"
        return
    numbers = {name: told.numbers[places.index(at)] for name, at in zip("ab", left, strict=False)}
    if len(left) == 1 and not ALIKE.search(sentence):
        yield f"{sentence!r}: a number that nothing accounts for"
    for fault in claims.values(Claim(case, {}, numbers, told.text, "change")):
        yield f"{sentence!r}: {fault}"


ALIKE = re.compile(
    r"\bsame\b|\bboth\b|before and after|held|where (?:it was|they were)|stayed|stood still|"
    r"level|hardly moved|about as many|about the same|tell them apart|alike",
    re.IGNORECASE,
)
