"""The parts that the patterns of a cause are put together from.

'<event>' is what happened, by one of its names; '<thing>' the same with what leads to it.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from pipeline.said.number_table import SMALL

ONE = r"(?:(?<=\bthe )(?!<stops>\b)\w+ )?"  # 'the salt air'
ABOUT = rf"(?:(?:<leads>|(?:19|20)\d\d|<event>) ){{0,5}}{ONE}<event>s?"
SIZE = rf"(?:\d|(?:{'|'.join(SMALL)}|half)\b)"
HEDGES = r"(?:about|nearly|around|roughly|just|over|under|almost|a|an)"
NO_NUMBER = rf"(?! (?:{HEDGES} )*{SIZE})"  # 'it was down to six' is of no cause
PLACE = (
    r"(?: (?:in|on|of|at|around|under|off|by|near|along|over|above|across|beside|from) "
    r"(?:the |their |all |that )?\w+)?"
)
OF_IT = r"(?: (?!<stops>\b)[a-z]+)?"  # a noun that it leads: its length, its height
THERE = rf"{PLACE}(?:, [^,.;:]{{0,40}},)?(?:,? <adverbs>,?)*"
SUCH = (  # 'grass that deep', 'outfields like those', 'the field getting long'
    r"(?: (?:like (?:that|this|these|those)|(?:that|this) \w+"
    r"|(?:getting|growing|being|going|turning|left|let|allowed|kept|coming)(?: to)? \w+(?: \w+)?))?"
)
DOES = rf"{OF_IT}{SUCH}{THERE}"
FEW = r"[^.;?!]{0,60}?"
SOME = r"[^.;?!]{0,70}?"
TO_IT = r"(?:(?! (?:before|after|since|until|than|when|in)\b)[^.;?!]){0,60}?"
OF_IT_HAS = r"(?:'s \w+)?"
WHAT = r"(?:what|the (?:\w+ )?(?:thing|one|factor|bit|part|force) (?:that|which|who))"
IS = r"(?:'s|is|was|are|were|has been|have been|had been|being|be)"
NOT_DONE = r"\b(?! <not_done>\b)"
ITS = r"(?:it's|it was|it is|that's|that was|that is|'twas)"
TO = r"(?:goes to |to )?"
SAID_TO_BE = r"(?:behind|responsible|the reason|to blame|why)"


class Rule(NamedTuple):
    """`needs` is what else the sentence has to say; what `denies` has a 'not' of its own."""

    template: str
    needs: Literal["by", "effect", "made", "moved", "no group", "nothing", "topic"]
    denies: bool = False

    @property
    def names_event(self) -> bool:
        """And nothing else that could do it instead."""
        named = "<thing>" in self.template or "<event>" in self.template
        return named and "<forces>" not in self.template and "<agents>" not in self.template
