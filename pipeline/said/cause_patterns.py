"""How a cause is said: which words stand where, of the lists of words/causes.toml.

'<event>' is what happened, by one of its names; '<thing>' the same with what leads to it.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from pipeline.said.number_table import SMALL

_ONE = r"(?:(?<=\bthe )(?!<stops>\b)\w+ )?"  # 'the salt air'
ABOUT = rf"(?:(?:<leads>|(?:19|20)\d\d|<event>) ){{0,4}}{_ONE}<event>s?"
_SIZE = rf"(?:\d|(?:{'|'.join(SMALL)}|half)\b)"
_HEDGES = r"(?:about|nearly|around|roughly|just|over|under|almost|a|an)"
_NO_NUMBER = rf"(?! (?:{_HEDGES} )*{_SIZE})"  # 'it was down to six' is of no cause
_PLACE = r"(?: (?:in|on|of|at|around|under|off) (?:the |their |all |that )?\w+)?"
_OF_IT = r"(?: (?!<stops>\b)[a-z]+)?"  # a noun that it leads: its length, its height
_THERE = rf"{_PLACE}(?:, [^,.;:]{{0,40}},)?(?:,? <adverbs>,?)*"
_DOES = rf"{_OF_IT}{_THERE}"
_FEW = r"[^.;?!]{0,60}?"
_SOME = r"[^.;?!]{0,70}?"
_OF_IT_HAS = r"(?:'s \w+)?"
_IS = r"(?:'s|is|was|are|were|has been|have been|had been|being|be)"
_NOT_DONE = r"\b(?! <not_done>\b)"
_ITS = r"(?:it's|it was|it is|that's|that was|that is|'twas)"


class Rule(NamedTuple):
    """`needs` is what else the sentence has to say; what `denies` has a 'not' of its own."""

    template: str
    needs: Literal["by", "effect", "moved", "no group", "nothing"]
    denies: bool = False

    @property
    def names_event(self) -> bool:
        return "<thing>" in self.template or "<event>" in self.template


_TO = r"(?:goes to |to )?"
_SAID_TO_BE = r"(?:behind|responsible|the reason|to blame|why)"

RULES = (
    Rule(rf"\b<by>(?!\w){_NO_NUMBER}", "by"),
    Rule(rf"\b<thing>{_OF_IT_HAS}{_DOES} <finite_verbs>{_NOT_DONE}", "effect"),
    Rule(rf"\b<thing>{_DOES} ?{_IS}(?: \w+)? <predicates>", "nothing"),
    Rule(rf"\b<thing>{_DOES} <has>\b", "effect"),
    Rule(rf"\b<forces>{_THERE} ?{_IS}(?: \w+)? <predicates>", "effect"),
    Rule(r"\b<thing>(?:'s?)? (?:doing|work|fault|handiwork|influence)\b", "nothing"),
    Rule(
        r"\b<thing>(?: that| which)? (?:we|you|they|i)(?:'ve got| have)? to (?:thank|blame)\b",
        "nothing",
    ),
    Rule(
        rf"\b{_ITS}(?: all)? <thing>(?: that| which| who| doing| at work| for you|[.!,]|$)",
        "nothing",
    ),
    Rule(rf"\b<credit> (?:for \w+ )?{_TO}<thing>", "nothing"),
    Rule(r"\bbecause\b.*\b<event>s?\b", "effect"),
    Rule(r"\b<event>s?\b.*\b<so>(?!\w)", "effect"),
    Rule(rf"\b<letting>\b[^,.;:]{{0,30}}\b<event>s?\b{_FEW} <finite_verbs>{_NOT_DONE}", "effect"),
    Rule(rf"\b<agents>{_DOES} <finite_strong_verbs>{_NOT_DONE}", "moved"),
    Rule(
        rf"\b{_ITS} (?:the )?<agents>\b[^.;]{{0,40}}? (?:that|which|who)(?: has| have)?"
        rf" <finite_verbs>{_NOT_DONE}",
        "effect",
    ),
    Rule(
        r"\b<agents> (?:did|have done|had done) (?:it|that|this)\b(?! (?:by|in|on|for|to)\b)",
        "nothing",
    ),
    Rule(rf"\b<forces>(?! speeds?\b){_THERE} <finite_verbs>{_NOT_DONE}", "effect"),
    Rule(rf"\band (?:that|this)(?: has)? <finite_goes_on_verbs>{_NOT_DONE}", "moved"),
    Rule(r"\b(?:take|taking) <thing> (?:away|out)\b", "effect"),
    Rule(rf"(?:^|[.;:] )<growing> {_FEW}<event>s?\b{_FEW} and\b", "effect"),
    Rule(r"\b(?:is|are|was|were) to (?:blame|thank)\b", "moved"),
    Rule(rf"\b{_ITS} (?:the|your|our) (?:\w+ )?<of_reasons>\b", "moved"),
    Rule(rf"\b<put>\b{_SOME}\b<put_to> (?:the )?<agents>\b", "effect"),
    Rule(
        rf"\b<event>s?\b(?:(?! than )[^.;?!]){{0,60}}?\b(?:it|they|that|this)(?: <adverbs>)*"
        rf" <finite_verbs>{_NOT_DONE}",
        "effect",
    ),
    Rule(r"\b<event>s?(?:[:—]| -) ?<predicates>", "effect"),
    Rule(r"\b(?:blame|credit|pin|put) (?:it|that|this|them)(?: all)? (?:on|down to)\b", "nothing"),
    Rule(r"\b(?:can|could|should|must|may well) thank\b(?! you)", "effect"),
    Rule(rf"\bit took {_FEW}\b<event>s?\b{_FEW} to <verbs>\b", "nothing"),
    Rule(r"\bwhy\b ?[:,—-] ?(?:it's |because |that's )?<thing>", "effect"),
    Rule(r"\b<agents>(?:'s?)? (?:doing|work|fault|handiwork|influence)\b", "moved"),
    Rule(rf"\b<agents> (?:is|was|are|were) what <finite_verbs>{_NOT_DONE}", "effect"),
    Rule(rf"\b{_IS} what (?:has |have |really )?<finite_strong_verbs>{_NOT_DONE}", "moved"),
    Rule(rf"\b(?:the|that|this|a) (?:\w+ )?<decisions>\b{_FEW} <finite_verbs>{_NOT_DONE}", "moved"),
    Rule(rf"\b<agents>{_DOES} ?{_IS} (?:\w+ )?{_SAID_TO_BE}\b", "moved"),
    Rule(rf"\b<credit> {_TO}(?:the )?<agents>\b", "effect"),
    Rule(r"\bwith <thing> (?!growing|being|coming|going)\w+ing\b[^.;]{0,40},", "effect"),
    Rule(r"\bdown to <thing>\b", "effect"),
    Rule(r"\b<one_to_other>", "nothing"),
    Rule(r"\b<without> <thing>\b(?! (?:or|and))", "effect", denies=True),
    Rule(
        r"\bhad (?:the |that |those )?<event>s? (?:not|never|stayed|been|remained)\b",
        "effect",
        denies=True,
    ),
    Rule(
        rf"\b<reasons>\b{_FEW}(?:{_IS}|[:,?—]|goes to|to|belongs to|lies (?:in|with)|with)"
        r"(?: simply| of course| surely)? <thing>",
        "nothing",
    ),
    Rule(
        rf"\b<credit>\b{_FEW}(?:{_IS}|goes to|must go to|belongs to|lies with) <thing>", "nothing"
    ),
    Rule(
        rf"\bwhat (?:has |have |had |really )?<verbs>\b{_SOME} {_IS}"
        r"(?: simply| of course)? <thing>",
        "nothing",
    ),
    Rule(
        rf"\b{_ITS} (?:the |that |this |our |all )[a-z ]{{2,30}}? (?:that|which|who)"
        rf" (?:has |have )?<finite_verbs>{_NOT_DONE}",
        "no group",
    ),
    Rule(rf"\b{_IS} <thing> (?:talking|at work|doing|showing|speaking)\b", "nothing"),
    Rule(
        rf"\b{_ITS} (?:exactly |just |precisely )?what <thing> (?:does|did|do|has done)\b",
        "nothing",
    ),
    Rule(r"\b<thing> to (?:thank|blame)\b", "nothing"),
    Rule(r"\b<effects> of <thing>|\b<thing>(?:'s)? <effects>\b", "nothing"),
    Rule(r"\b<thing>'s (?:gift|present|favour)\b", "nothing"),
    Rule(rf"\b<from> <thing>|\b<from> {_FEW}\b<event>s?\b", "effect"),
    Rule(rf"\b<put>\b{_SOME}\b<put_to> <thing>", "moved"),
    Rule(r"\b(?!un)\w+(?:ed|en|ade|ut|urt|ven|ought) (?:\w+ ){0,4}by <thing>", "effect"),
)
