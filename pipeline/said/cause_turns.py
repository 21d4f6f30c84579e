"""Other turns in which a cause is said: who has it good by it, what would be without it."""

from __future__ import annotations

from pipeline.said.cause_parts import FEW, ITS, NOT_DONE, TO_IT, Rule

MORE_RULES = (
    Rule(
        rf"(?:^|[.;:] |\band |, )<robbed> (?:of|by|with|from) {FEW}"
        r"\b(?:<event>|<forces>|<agents>)s?\b",
        "effect",
    ),
    Rule(
        r"\b(?:has|have|had|'ve got|'s got|got) [^.;,]{1,40}(?:, [^,]{1,40},)? "
        r"to (?:thank|blame)\b",
        "topic",
    ),
    Rule(
        r"\b(?:can only|ha[sd] to|have to|must|has got to) (?:be|have been)(?: down to)? <thing>",
        "topic",
    ),
    Rule(r"\b(?:and )?with (?:it|that|them|this),? (?:went|came|go|goes|fell|rose)\b", "topic"),
    Rule(
        r"\bthere(?:'s| is| can be)(?: really)? (?:only|just|but)? ?(?:one|a single) "
        r"(?:\w+ )?<of_reasons> (?:for|why)\b",
        "moved",
    ),
    Rule(
        r"\b(?:that's|that is|this is|which is|here's|there's) where [^.;]{3,60}? "
        r"(?:come|comes|came|coming|stem|stems) from\b",
        "topic",
    ),
    Rule(
        r"\b(?:gets?|got|draws?|drew|takes?|took|gained|gains|found|finds) "
        r"(?:its|their|his|her|the|that|most of|all of)\b"
        r"[^.;,]{1,50} (?:from|off) <thing>(?! (?:years|seasons|era)\b)",
        "topic",
    ),
    Rule(
        rf"\b{ITS}(?: all| just| only| simply)? (?:down to )?(?:the |that |all the )?"
        r"(?:<forces>|<agents>)[,.:;](?! (?:that|which|who) we)",
        "effect",
    ),
    Rule(rf"\b{ITS}(?: all| just| simply)? down to (?:the |those )?<agents>\b", "topic"),
    Rule(
        r"\b<event>s?\b[^.;?!]{0,40}, (?:and |which )?(?:it|that|they)"
        r"(?:'s|'re| is| are| was| were) <predicates>",
        "effect",
    ),
    Rule(r"(?<!that )(?<!which )(?<!it )(?<!this )(?<!what )\b(?:<leads_to>)\b", "made"),
    Rule(r"\bno (?:coincidence|accident)\b(?! of)", "moved", denies=True),
    Rule(
        r"(?:^|[.;:,] )(?:(?:but|and|so) )?(?:if|had|were|unless|without) (?!we\b|you\b|i\b)"
        r"[^.;?]{0,50}?<undone>\b[^.;?]{0,60}?(?<!we)(?<!you)(?<!i)(?: |')(?:would|wouldn't|d)\b",
        "topic",
        denies=True,
    ),
    Rule(
        rf"(?:^|[.;:] )(?:that|this|all of (?:it|that)|it all)(?: alone| really| simply)? "
        rf"<finite_goes_on_verbs>(?! (?:in|of)\b){NOT_DONE}",
        "made",
    ),
    Rule(r"\b<thrives> (?:all |of )?(?:<thing>|(?:the |that )?<forces>\b)", "topic"),
    Rule(
        r"\b(?:owes?|owed|owing)\b [^.;]{1,50} to (?:the |a |that )?(?:\w+ )?"
        r"(?:<forces>|<agents>|<event>s?)\b",
        "topic",
    ),
    Rule(r"(?:^|[.;:,—] )(?:and )?hence (?:the|that|those|its|their)\b", "topic"),
    Rule(
        r"\b(?:that's|which is|this is|it's|such is|exactly) what (?:you get|happens|comes) "
        r"(?:when|with|if|of|from)\b",
        "topic",
    ),
    Rule(rf"\b<agents>(?:'s?)? \w+ing\b{FEW} <finite_verbs>{NOT_DONE}", "made"),
    Rule(
        r"(?<!that )(?<!which )(?<!it )(?<!this )\bmade "
        r"(?:[\w-]+ ){1,5}<stated.comparatives>\b(?! than\b)",
        "made",
    ),
    Rule(
        r"\bthe <stated.comparatives>\b[^,.;]*\b(?:<event>|<forces>)s?\b[^,.;]*,? "
        r"the <stated.comparatives>\b",
        "nothing",
    ),
    Rule(r"\b(?:you|we|i|everyone|everybody) (?:all )?knows? why ?[:—,.-]", "topic"),
    Rule(rf"\b<from> {TO_IT}\b(?:<decisions>|<agents>)s?\b", "effect"),
    Rule(
        r"(?:^|[.;:] )(?:since|as|now that|seeing (?:that|as)|given that) (?!we\b|you\b|i\b)"
        r"[^,.;]{5,60}?\b(?:no longer|can't|cannot|couldn't)\b[^,.;]*,",
        "made",
        denies=True,
    ),
    Rule(r"\bwants? to know why\b[^.;]*, (?:look|ask|talk|start|try|blame|think|see)\b", "topic"),
)
