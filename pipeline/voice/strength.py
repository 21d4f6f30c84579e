"""How strong the words of a form may be: what each verdict needs in its words, and what it bars."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Literal, NamedTuple

Says = Literal[
    "rose",  # told to have gone up
    "fell",
    "apart",  # two groups, told apart
    "differed",  # of two changes, told apart
    "held",  # told to have moved by no more than the margin, with the numbers
    "under",  # the same, with the margin
    "open",  # nobody can call it
    "reach",  # what fits, of what nobody can call
    "step",  # a step beside a drift, told
    "no_step",  # one that can neither be shown nor ruled out
    "bent",  # no step, if the trend is no straight line
    "untested",
    "luck",  # a player's own number, told from none
    "none_told",
    "fits",  # an event inside the interval of a date
    "neutral",  # numbers, and no verdict
    "free",  # what no verdict's words belong to, or which has its own
]


class Rule(NamedTuple):
    """Words that a form needs, in words for whoever writes one; and words that say another."""

    needs: re.Pattern[str] | None
    such_as: str
    bars: tuple[re.Pattern[str], ...]


def _words(*words: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w’])(?:{'|'.join(words)})(?![\w’])", re.IGNORECASE)


ALWAYS = _words(
    *("because", "due to", "thanks to", "owing to", r"caus(?:e|es|ed)", "led to", "drove"),
    *("as a result", r"significan(?:t|tly|ce)", r"(?:un)?likely", "probably", "no doubt"),
    *("certainly", "definitely", r"prove[sdn]?(?<!not prove)", "exactly", "identical"),
    *("unchanged", "no effect", "no difference", "no change(?<!from no change)", "huge"),
    *("massive", "dramatic(?:ally)?", "soared", "plunged", "collapsed", "rocketed"),
)
UP = _words("rose", "rise", "climbed", "up", "higher", "grew")
DOWN = _words("fell", "fall", "dropped", "down", "lower", "shrank")
MOVED = _words(
    *("rose", "fell", "climbed", "dropped", "grew", "shrank", "jumped"),
    *(r"(?:went|goes|moved) (?:up|down)", "came down", r"(?:a )?real (?:rise|fall|gap)"),
    r"(?:rise|fall|gap) we can call",
)
HELD = _words(
    *(r"(?<!say it )(?<!call that )held", "steady", "stood still", "hardly moved"),
    *(r"stayed (?:put|level|about where|where)", "much the same", "nearly the same"),
    *(
        "hardly a (?:gap|difference)",
        "not much in it",
        r"(?<!call them )(?<!call that )level",
        "struggle to tell",
    ),
)
OPEN = _words(
    *(
        "can’t",
        "cannot",
        "won’t",
        r"isn’t (?:quite )?enough",
        "too few",
        "either way",
        "no telling",
    ),
    *("may not", "no saying"),
)
COULD = _words("could", "would fit", "fits", "room")
STEP = _words("step", "jump")
TIME = _words(
    *("now", "then", "before", "after", "earlier", "later", "rose", "fell", r"(?<!a )rise"),
    *("fall", "up", "down", "changed?", "moved"),
)

RULES: dict[Says, Rule] = {
    "rose": Rule(UP, "'rose', 'up'", (DOWN, HELD, OPEN, COULD)),
    "fell": Rule(DOWN, "'fell', 'down'", (UP, HELD, OPEN, COULD)),
    "apart": Rule(_words("gap", "it’s"), "'gap'", (HELD, OPEN, COULD)),
    "differed": Rule(_words("compared with", "against"), "'compared with'", (HELD, OPEN, COULD)),
    "held": Rule(HELD, "'held', 'much the same'", (MOVED, OPEN)),
    "under": Rule(_words("under", "less than", "smaller than"), "'under'", (MOVED, OPEN)),
    "open": Rule(OPEN, "'we can’t call it'", (MOVED, HELD)),
    "reach": Rule(COULD, "'could be'", (MOVED, HELD, OPEN)),
    "step": Rule(STEP, "'a step'", (_words("may be", "might", "could", "rule"),)),
    "no_step": Rule(OPEN, "'we can’t show a step, or rule one out'", (_words("there’s no step"),)),
    "bent": Rule(_words("couldn’t call it a step"), "'we couldn’t call it a step'", ()),
    "untested": Rule(_words("can’t test", "no testing"), "'we can’t test that'", ()),
    "luck": Rule(_words("more than luck"), "'by more than luck'", ()),
    "none_told": Rule(_words("told from no change"), "'can’t be told from no change'", ()),
    "fits": Rule(_words("does not prove it"), "'it does not prove it'", ()),
    "neutral": Rule(None, "", (MOVED, HELD, OPEN)),
    "free": Rule(None, "", ()),
}
UNITED = {"step": STEP, "no_step": STEP}  # a step is named, whatever else a form says


def wrong_strength(form: str, says: Says, timeless: bool) -> Iterator[str]:
    """What a form says too strongly or too weakly for what it tells."""
    rule, plain = RULES[says], re.sub(r"\{\w+\}", "#", form)
    if rule.needs and not rule.needs.search(plain):
        yield f"too weak: it has to say {rule.such_as}, or the like"
    if (named := UNITED.get(says)) and not named.search(plain):
        yield "it does not name the step: say 'step'"
    for barred in (ALWAYS, *rule.bars):
        if found := barred.search(plain):
            yield f"'{found[0]}' says more, or another thing, than this: leave it out"
    if timeless and (found := TIME.search(plain)):
        yield f"'{found[0]}' has a time in it, and two groups have none: leave it out"
