"""How two changes are set against each other: which words stand where, of comparisons.toml."""

from __future__ import annotations

from typing import NamedTuple

CHANGE = r"(?:<verbs>|<changes>)"
_FAR, _NEAR = r"[^.;]{0,70}?", r"[^.;]{0,40}?"
_NO_NOUN = (
    r"(?=\W*$|[,.;:—]"
    r"| (?:of|from|at|by|in|when|where|there|here|too|and|but|out|under|on|for|off|as|with)\b)"
)
_OF_THEM = r"(?: (?!(?:whether|that|who|to|tested|here|says?|said|knows?)\b)[\w'-]+){0,5}"
NOBODY_MOVED = rf"<nobody>{_OF_THEM} (?:{CHANGE}|<felt>|(?:\w+ )?<deals>)\b"


class Comparison(NamedTuple):
    """`moves`: a change has to be named besides, which 'beat' and 'alike' do not do.

    `objects`: both groups follow it, as with 'helps'. `alone`: one group is enough, as with 'no
    other'.
    """

    template: str
    moves: bool = False
    objects: bool = False
    alone: bool = False


COMPARISONS = (
    Comparison(rf"\b{CHANGE}\b{_FAR}\b<more>\b{_FAR}\b<than>\b"),
    Comparison(rf"\b<more>\b{_NEAR}\b<than>\b{_FAR}\b{CHANGE}\b", moves=True),
    Comparison(
        rf"\b(?:has|have) been <cruel>\b{_NEAR}\bthan\b|\b<cruel>\b{_NEAR}\bthan\b{_NEAR}\bsince\b"
    ),
    Comparison(
        rf"\b<sizes>\b[^.;]{{0,25}}?\b(?:{CHANGE}|<blows>)\b{_FAR}\b(?:than|for|was|of|came|belongs)\b"
    ),
    Comparison(
        rf"\b{CHANGE}\b{_FAR}\b(?:was|is|are|were) (?:\w+ ){{0,4}}?(?:the )?<sizes>\b"
        rf"(?:{_NEAR}\bthan\b)?"
    ),
    Comparison(rf"\b{CHANGE}\b{_NEAR}(?:\bby|,) <more>(?!\w)"),
    Comparison(rf"\b{CHANGE}(?: \w+){{0,4}} <more>(?=\W*$)"),
    Comparison(rf"\b{CHANGE} (?:the )?<most>\b"),
    Comparison(rf"\b<most>\b{_NEAR}\b{CHANGE}\b", moves=True),
    Comparison(
        rf"\bof (?:all|the lot|the bowlers|the batters)\b{_FAR}\b{CHANGE} (?:the )?<most>\b",
        alone=True,
    ),
    Comparison(rf"\b<cruel> (?:on|to|for)\b{_NEAR}\bthan (?:on|to|for|they|it)\b"),
    Comparison(rf"\b<felt>\b{_NEAR}\bthan\b"),
    Comparison(r"\b<matters>\b (?:the )?(?:most|more|less|least) (?:to|for)\b", alone=True),
    Comparison(rf"\b<beside>\b{_FAR}\b<barely> (?:{CHANGE}|<felt>)"),
    Comparison(rf"\bcompared (?:with|to)\b{_FAR}\b{CHANGE}\b"),
    Comparison(rf"\b(?:up|down)\b{_NEAR}\bby (?:less|more)\b"),
    Comparison(
        r"\b(?:took|takes?|knocked|shaved|trimmed) (?:even )?(?:more|less) (?:off|out of)\b"
        rf"{_FAR}\bthan\b"
    ),
    Comparison(r"\b<gap_words>\b"),
    Comparison(r"\b<gaps>\b[^.;]{0,90}?\b<gap_moves>\b|\b<gap_moves> <gaps>\b|\b<gap_moved>"),
    Comparison(r"\b<exceed_verbs>\b"),
    Comparison(r"\b<beats>\b|\b<beaten>\b", moves=True),
    Comparison(r"\b<alike>\b", moves=True),
    Comparison(r"\b<fared>\b"),
    Comparison(rf"\b<things>\b{_NEAR}\b{CHANGE}?[^.;]{{0,20}}\b<cruel> for\b"),
    Comparison(
        rf"\b<favour_verbs>\b{_NEAR}\b(?:more|harder|less|worse|better)\b{_NEAR}\bthan\b",
        objects=True,
    ),
    Comparison(rf"\b<turned> {_NEAR}\b<stated.comparatives>\b{_NEAR}\bthan\b"),
    Comparison(rf"\b(?:<beside>|set|put|compare)\b{_FAR}\b{CHANGE} (?:\w+ )?<more>\b"),
    Comparison(rf"\bthe <sizes> (?:\w+ )?{CHANGE}\b"),
    Comparison(rf"\b<beside>\b{_FAR}\b<sizes>\b{_NEAR}\b{CHANGE}\b"),
    Comparison(
        rf"\b(?:no|nobody|none|nothing)\b{_NEAR}\b{CHANGE}\b{_NEAR}\b<more>\b{_NEAR}\b<than>\b",
        alone=True,
    ),
    Comparison(
        r"\b(?:bigger|greater|worse|larger)(?: of the (?:two|pair))? <losers>\b", alone=True
    ),
    Comparison(rf"\b{CHANGE}\b{_FAR}\bas {_NEAR}never did\b"),
    Comparison(rf"\b{CHANGE} <more>\b{_FAR}\bthan (?:in |for |at )?any other\b", alone=True),
    Comparison(rf"\b{CHANGE}\b{_NEAR}\b(?:was|is|were) the same for\b"),
    Comparison(
        rf"\b(?:the|that) (?:kind of |sort of )?(?:\w+ )?{CHANGE}\b that (?:\w+ )?_+'?"
        r" (?:did|had|got|took|saw)\b"
    ),
    Comparison(rf"\b(?:{CHANGE}|<felt>)\b{_NEAR}\b(?<!at )<most>\b{_NO_NOUN}<no_date>", alone=True),
    Comparison(
        rf"\b(?:{CHANGE}|<felt>)\b{_FAR}\b(?:<more>|<sizes>)\b{_NEAR}\bthan <all_others>\b",
        alone=True,
    ),
    Comparison(
        rf"\b(?:<more>|<sizes>)\b{_NEAR}\b(?:{CHANGE}|<felt>)\b{_NEAR}\b(?:than|of) <all_others>\b",
        alone=True,
    ),
    Comparison(rf"\b(?:{CHANGE}|<felt>)\b{_FAR}\b(?:more|less) than <all_others>\b", alone=True),
    Comparison(
        rf"\b{NOBODY_MOVED}{_FAR}\b(?:(?<!any )<more>|the way|like|so much|than)\b",
        alone=True,
    ),
    Comparison(
        rf"\b(?:{CHANGE}|<felt>|better|worse)\b{_FAR}\b(?:more|less|even more) so\b", alone=True
    ),
    Comparison(r"\b<does_to> <much_more> (?:to|for|with|in|at)\b"),
    Comparison(rf"\b(?:{CHANGE}|<felt>) <far> (?:fewer|less|more)\b"),
    Comparison(rf"\b(?:<felt>|<deals>)\b{_NEAR}\b<more>\b{_NEAR}\bthan\b"),
    Comparison(rf"\b<deals>\b{_NEAR}\bthan\b"),
    Comparison(rf"\b<sizes>\b{_NEAR}\b<gaps> than\b"),
    Comparison(r"\b<all_of_it>\b", alone=True),
    Comparison(rf"\b<matters>\b{_NEAR}\b<more>\b{_NEAR}\bthan\b"),
    Comparison(r"\bmore than (?!they|it|he|she|we|you)\w+ did\b"),
)
