"""What bowling styles are called in the wild: words, old names, codes, each with its style.

Common practice of scorecards and annuals; no published list fixes these names. Text comes here as
small letters and digits with single spaces ("slow left arm orthodox").
"""

from __future__ import annotations

ORTHODOX = r"\borth[oa]dox|ortodox"  # as it is misspelt, too
# Wrist spin, unless a word of pace follows: "unorthodox medium" is of an unorthodox action.
UNORTHODOX = r"unorth\w+(?!.*\b(fast|medium|seam|swing|pace))"

# In order: the first words that are found in a phrase decide. Words of spin come before those of
# pace, since a word of pace beside them says how fast the spin is ("medium paced off breaks").
STYLES = [
    (r"(off|leg) ?cutt?ers?|\bcutters?\b", "pace", "pace"),
    (r"wrist ?spin\w*|chinam[ae]n|back of (the )?hand", "spin", "wrist spin"),
    (r"leg ?(break|brake|spin|tweak)\w*|\bleggies?\b|\bleggy\b", "spin", "wrist spin"),
    (r"googl(y|ies)|bosie|wrong ?un\b|flipper", "spin", "wrist spin"),
    (r"off ?(break|brake|spin|tweak)\w*|\boffies?\b|doosra|carrom", "spin", "finger spin"),
    (UNORTHODOX, "spin", "wrist spin"),
    (rf"{ORTHODOX}|slow left arm( bowl\w+)?$|finger ?spin\w*", "spin", "finger spin"),
    (r"^(right )?(arm )?offs?$", "spin", "finger spin"),
    (r"^(right )?(arm )?legs?$", "spin", "wrist spin"),
    (r"\bspin\w*|\btweak\w*|\btwirl\w*", "spin", "spin"),
    (r"fast ?(to )?medium", "pace", "fast-medium"),
    (r"medium ?(to )?fast", "pace", "medium-fast"),
    (r"slow ?(to )?medium|medium ?(to )?slow|dibbly dobbl\w+|dobbers?", "pace", "slow-medium"),
    (r"\bfast\b|express", "pace", "fast"),
    (r"\bmediums?\b", "pace", "medium"),
    (r"\bseam\w*|\bswing\w*|\bpace\w*|\bswerve", "pace", "pace"),
    (r"\bslows?\b", "spin", "spin"),
]

# How fast a spinner bowls is no style beside the spin: "medium-paced off-breaks". A speed with no
# such word may be a style of its own ("right-arm medium off-break"), and is in doubt.
_OF_SPIN = r"(?=(off|leg|spin|finger|wrist|orth)|(left|right) arm (off|leg|spin|orth))"

# The same words otherwise.
SAME = [
    (r"^(bowls|bowling|bowling style|style) (?=\w)", ""),
    (r"^[rl]hb (?=\w)", ""),  # a batting hand before a style
    (r"\b(rt|rh|ra)\b|\br (arm|hand|a|h)\b", "right arm"),
    (r"\b(lt|lft|lh|la)\b|\bl (arm|hand|a|h)\b", "left arm"),
    (r"\b(right|left) ?(arm|hand)(ed|er)?s?\b", r"\1 arm"),
    (r"\bround ?arm\b|\bover ?arm\b", ""),  # how the arm goes, not what it bowls
    (r"\b(med|medum|meduim)\b", "medium"),
    (rf"\b(slow )?(medium|slow) ?paced {_OF_SPIN}|\bmedium ?pace (?=spin)", ""),
    (rf"\bslow medium {_OF_SPIN}", ""),
    (r"(?<=[a-z]) (at|of) (a )?(slow |slow to )?medium ?pace$", ""),
    (r"\b(medium|fast|slow) ?pace[ds]?\b", r"\1"),
    (r"\bquick(s|ie|ies)?\b", "fast"),
    (r"^r\b", "right arm"),
    (r"^l\b", "left arm"),
]

# Short codes, as whole phrases without spaces: an arm, perhaps an "a" for it, and the style.
CODES = [
    (r"([rl])a?hf|([rl])a?f", "pace", "fast"),
    (r"([rl])a?fm", "pace", "fast-medium"),
    (r"([rl])a?mf", "pace", "medium-fast"),
    (r"([rl])a?mp?", "pace", "medium"),
    (r"([rl])a?(sm|ms)", "pace", "slow-medium"),
    (r"(r)?a?(obs?|os)|roff|(r)a?o", "spin", "finger spin"),
    (r"(r)?a?lb[gs]?|(r)a?ls|([rl])a?ws", "spin", "wrist spin"),
    (r"sl[ao]|slao|la?os?", "spin", "finger spin"),
    (r"sl[acu]?[cuw]|la[cu]", "spin", "wrist spin"),
]

# What says that nothing is bowled, and what says that there is no style to be read.
NO_BOWLER = (
    r"none|no|nil|non? ?bowl(er|ing)|(does|did|do) ?(not|nt|n t) bowl|not a bowler|no bowling"
    r"|(has )?never bowl(s|ed)"
)
NONE = (
    rf"{NO_BOWLER}|n ?a|(wicket ?)?keeper|wk|unknown|tb[acd]|x+"
    r"|not (known|recorded|specified|available|applicable|given)|none (recorded|known|given)"
    r"|nan|null|no (data|style)"
)
# Beside a style these say nothing of it; alone they leave it open.
ASIDE = (
    r"(occasional(ly)?|part ?time(r)?|useful|rarely|sometimes|change|opening|captain"
    r"|(batting |bowling )?all ?rounder|(wicket ?)?keeper|wk| )+( bowler)?"
)
# A batting hand in the cell of the bowling style is passed over.
BATTING = r".*\b(bats?|batter|batting|batsman|batswoman)\b.*|[rl]hb"
# Words that say no more than that there is an arm.
ARM_ONLY = r"((right|left) ?(arm|handed)?|bowls|bowler|bowling| )+"

# Who bowls it, where the words do not say: a right arm's names and a left arm's.
LEFT_NAMES = rf"chinam[ae]n|{ORTHODOX}|{UNORTHODOX}"
RIGHT_NAMES = r"(leg|off) ?(break|brake|spin)|legg(y|ie)|offie|^(off|leg)s?$"
# Balls of a spinner of either arm; a right arm's where nothing says which.
EITHER_NAMES = r"googl|bosie|doosra|carrom|wrong ?un|flipper"
LEFT_CODES = r"sl[acuow]+|l(?!b[gs]?$)\w*"  # of those in CODES; the others are a right arm's

# What a slip of the pen is nearly: beside a word that can be read it must not be passed over.
WORDS = (
    *("fast", "medium", "slow", "break", "legbreak", "offbreak", "spin", "orthodox", "chinaman"),
    *("pace", "seam", "wrist", "finger", "googly"),
)
ARMS = ("left", "right")
# What is not said of today's bowling, or not for sure, or of both arms; and names that the other
# arm than the one said would make another style of (a left arm's leg-break is of the fingers to
# some, of the wrist to others).
DOUBTFUL = (
    r"\b(not?|non|never|maybe|perhaps|probabl[ey]|possibl[ey]|presumably|formerly|previously"
    r"|originally|was|were|used to|once|until|now|later|mainly|mostly|both"
    r"|either|ambidextrous|switch|under ?arm|lobs?)\b"
    r"|\bright arm\b.*chinam[ae]n|chinam[ae]n.*\bright arm\b"
    r"|\bleft arm\b.*\b(off|leg) ?(break|brake)|\b(off|leg) ?(break|brake).*\bleft arm\b"
)

# Spellings to which an unread one is held, to name the nearest.
KNOWN = (
    *("right-arm fast", "right-arm fast-medium", "right-arm medium-fast", "right-arm medium"),
    *("left-arm fast", "left-arm fast-medium", "left-arm medium-fast", "left-arm medium"),
    *("right-arm slow-medium", "right-arm off-break", "off-break", "off-spin"),
    *("right-arm leg-break", "leg-break", "leg-break googly", "leg-spin", "seamer", "spinner"),
    *("slow left-arm orthodox", "left-arm orthodox", "left-arm wrist-spin", "does not bowl"),
)
