"""What of its finding a sentence tells: the drift, the control, or the number itself.

Each has numbers of its own: the same words are another number there.
"""

from __future__ import annotations

import re

from pipeline.voice.heard import heard_as

# The end of a sentence that names the number, in the answer: no number is in it.
_TAIL = re.compile(
    r"(?:, and (?:that is a step beyond its drift|beside its drift there is a step (?:up|down)"
    r"|a step beside its drift is [^;]*|whether it was already drifting [^;]*)"
    r"(?:, if that ran straight)?|, though we can’t test whether it was already drifting)?"
    r"(?:; (?:like for like|with [\w, ]+ held still) [^;]*)?\.$"
)
# Sentences of 0.8 to 0.10, whose editions are read; today's stand in the voice file.
_DRIFT = re.compile(
    r"\bhad been (?:rising|falling|drifting)\b|\bdrift(?:ing)?\b|^Carried on\b"
    r"|\ba step (?:up|down|beside|on top)\b|\bthere is a step\b"
    r"|doesn’t stand up: it could be|^We can’t test that: "
    r"|\bseason anyway\b|\bfrom season to season\b|^Whether it was heading there\b"
)
_CONTROL = re.compile(
    r"\b[Mm]easured against .*(?:\bit is (?:up|down): |: it could be )"
    r"|^Set against .*(?:, it is still a change: |, it could be none: )"
)
# What a number does anyway: how far, which is its yardstick's; or why a change can't be called.
_ANYWAY = re.compile(r"^From [\w-]+ .* moves by .* anyway\.$")
_USUAL = re.compile(r"\bthe usual swings from\b")
BEYOND_CONTROL = "beyond-control"
# The number beside the plain one, in a sentence of its own; and in how many ways it is the same.
_ALIKE = re.compile(r"^(?:Like for like|With (?:sides|innings|grounds)[\w, ]* held still), ")
_WAYS = re.compile(r"\b(?:ways of asking|the one other way of asking)\b")
BESIDE = {
    "yardstick": _ANYWAY,
    "alike": _ALIKE,
    "ways": _WAYS,
    "drift": _DRIFT,
    "control": _CONTROL,
}
# By the first part of an outcome's name; and what tells no number, though it names the seasons.
VOICED = {
    "yardstick.": "yardstick",
    "like.": "alike",
    "panel.": "ways",
    "drift.": "drift",
    "control.": "control",
}
ANYWAY = ("open.usual.", "gap.open.usual.")
PARTS = {
    "drift": "drift",
    "step": "drift",
    "yardstick": "yardstick",
    "like-for-like": "alike",
    "held-still": "alike",
    "same-in": "ways",
    BEYOND_CONTROL: "control",
}


def told_of(sentence: str) -> str:
    """'drift', 'control', 'yardstick', 'alike', 'ways', or '' of the number itself."""
    said = _TAIL.sub(".", sentence)
    voiced = heard_as(said, (*VOICED, *ANYWAY))
    for begins, what in VOICED.items():
        if voiced.startswith(begins):
            return what
    if voiced or _USUAL.search(sentence):
        return ""
    return next((what for what, words in BESIDE.items() if words.search(said)), "")


def may_tell(sentence: str, part: str) -> bool:
    """Whether a part of a finding may be what the sentence tells; '' is of no finding."""
    return not part or PARTS.get(part, "") == told_of(sentence)
