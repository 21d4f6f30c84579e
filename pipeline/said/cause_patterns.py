"""How a cause is said of what happened: which words stand where, of words/causes.toml."""

from __future__ import annotations

from pipeline.said.cause_parts import (
    DOES,
    FEW,
    IS,
    ITS,
    NO_NUMBER,
    NOT_DONE,
    OF_IT_HAS,
    SAID_TO_BE,
    SOME,
    THERE,
    TO,
    TO_IT,
    WHAT,
    Rule,
)

RULES = (
    Rule(rf"\b<by>(?!\w){NO_NUMBER}", "by"),
    Rule(rf"\b<thing>{OF_IT_HAS}{DOES} <finite_verbs>{NOT_DONE}", "effect"),
    Rule(rf"\b<thing>{DOES} ?{IS}(?: \w+)? <predicates>", "nothing"),
    Rule(rf"\b<thing>{DOES} <has>\b", "effect"),
    Rule(rf"\b<forces>{THERE} ?{IS}(?: \w+)? <predicates>", "effect"),
    Rule(r"\b<thing>(?:'s?)? (?:doing|work|fault|handiwork|influence)\b", "nothing"),
    Rule(
        r"\b<thing>(?: that| which)? (?:we|you|they|i)(?:'ve got| have)? to (?:thank|blame)\b",
        "nothing",
    ),
    Rule(
        rf"\b{ITS}(?: all)? <thing>(?: that| which| who| doing| at work| for you|[.!,]|$)",
        "nothing",
    ),
    Rule(
        rf"\b<credit> (?:for \w+ )?{TO}<thing>(?!(?: <event>s?)? for (?:my|our|your)\b)", "nothing"
    ),
    Rule(r"\bbecause\b.*\b<event>s?\b", "effect"),
    Rule(r"\b<event>s?\b.*\b<so>(?!\w)", "effect"),
    Rule(rf"\b<letting>\b[^,.;:]{{0,30}}\b<event>s?\b{FEW} <finite_verbs>{NOT_DONE}", "effect"),
    Rule(
        rf"\b<agents>{DOES} <finite_strong_verbs>{NOT_DONE}(?! (?:the |their |its )?<event>)",
        "moved",
    ),
    Rule(
        rf"\b{ITS} (?:the )?<agents>\b[^.;]{{0,40}}? (?:that|which|who)(?: has| have)?"
        rf" <finite_verbs>{NOT_DONE}",
        "effect",
    ),
    Rule(
        r"\b<agents> (?:did|have done|had done) (?:it|that|this)\b(?! (?:by|in|on|for|to)\b)",
        "nothing",
    ),
    Rule(rf"\b<forces>(?! speeds?\b){THERE} <finite_verbs>{NOT_DONE}", "effect"),
    Rule(rf"\band (?:that|this)(?: has)? <finite_goes_on_verbs>{NOT_DONE}", "moved"),
    Rule(r"\b(?:take|taking) <thing> (?:away|out)\b", "effect"),
    Rule(
        rf"(?:^|[.;:] )(?:(?:you|they|clubs|once you|we) )?<growing> {FEW}<event>s?\b{FEW} and\b",
        "effect",
    ),
    Rule(r"\b(?:is|are|was|were) (?:largely |partly |all |mainly )?to (?:blame|thank)\b", "topic"),
    Rule(rf"\b{ITS} (?:the|your|our) (?:\w+ )?<of_reasons>\b", "moved"),
    Rule(rf"\b<put>\b{SOME}\b<put_to> (?:the )?<agents>\b", "effect"),
    Rule(
        rf"\b<event>s?\b(?:(?! than )[^.;?!]){{0,60}}?\b(?:it|they|that|this)(?: <adverbs>)*"
        rf" <finite_verbs>{NOT_DONE}",
        "effect",
    ),
    Rule(r"\b<event>s?(?:[:—]| -) ?<predicates>", "effect"),
    Rule(r"\b(?:blame|credit|pin|put) (?:it|that|this|them)(?: all)? (?:on|down to)\b", "nothing"),
    Rule(r"\b(?:can|could|should|must|may well) thank\b(?! you)", "effect"),
    Rule(rf"\bit took {FEW}\b<event>s?\b{FEW} to <verbs>\b", "nothing"),
    Rule(r"\bwhy\b ?[:,—-] ?(?:it's |because |that's )?<thing>", "effect"),
    Rule(rf"\b<agents>{DOES} <has>\b", "moved"),
    Rule(r"\b<agents>(?:'s?)? (?:doing|work|fault|handiwork|influence)\b", "moved"),
    Rule(rf"\b<agents> (?:is|was|are|were) what <finite_verbs>{NOT_DONE}", "effect"),
    Rule(rf"\b{IS} what (?:has |have |really )?<finite_strong_verbs>{NOT_DONE}", "moved"),
    Rule(
        r"(?<!since )(?<!before )(?<!after )\b(?:the|that|this|a|one|\w+'s?) (?:\w+ )?"
        rf"<decisions>s?\b{FEW} <finite_verbs>{NOT_DONE}",
        "topic",
    ),
    Rule(rf"\b<agents>{DOES} ?{IS} (?:\w+ )?{SAID_TO_BE}\b", "moved"),
    Rule(rf"\b<credit> {TO}(?:the )?<agents>\b", "effect"),
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
        rf"\b<reasons>\b{FEW}(?:{IS}|[:,?—]|goes to|to|belongs to|lies (?:\w+ )?(?:in|with)|with)"
        r"(?: simply| of course| surely)? <thing>",
        "nothing",
    ),
    Rule(
        rf"\b<credit>\b{FEW}(?:{IS}|goes to|must go to|belongs to|lies (?:\w+ )?with) <thing>",
        "nothing",
    ),
    Rule(
        rf"\b{WHAT} (?:has |have |had |really )?<verbs>\b(?:{SOME})? {IS}"
        r"(?: simply| of course)? (?:<thing>|(?:the |that )?(?:\w+ )?(?:<forces>|<agents>))\b",
        "nothing",
    ),
    Rule(
        rf"\b{ITS} (?:the |that |this |our |all )[a-z ]{{2,30}}? (?:that|which|who)"
        rf" (?:has |have )?<finite_verbs>{NOT_DONE}",
        "no group",
    ),
    Rule(rf"\b{IS} <thing> (?:talking|at work|doing|showing|speaking)\b", "nothing"),
    Rule(
        rf"\b{ITS} (?:exactly |just |precisely )?what <thing> (?:does|did|do|has done)\b",
        "nothing",
    ),
    Rule(r"\b<thing> to (?:thank|blame)\b", "nothing"),
    Rule(r"\b<effects> of <thing>|\b<thing>(?:'s)? <effects>\b", "nothing"),
    Rule(r"\b<thing>'s (?:gift|present|favour)\b", "nothing"),
    Rule(rf"\b<from> <thing>|\b<from> {TO_IT}\b<event>s?\b", "effect"),
    Rule(rf"\b<put>\b{SOME}\b<put_to> <thing>", "moved"),
    Rule(r"\b(?!un)\w+(?:ed|en|ade|ut|urt|ven|ought) (?:\w+ ){0,4}by <thing>", "effect"),
)
