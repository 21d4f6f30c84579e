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
    (r"\bspin\w*|\btweak\w*|\btwirl\w*", "spin", "spin"),
    (r"fast ?(to )?medium", "pace", "fast-medium"),
    (r"medium ?(to )?fast", "pace", "medium-fast"),
    (r"slow ?(to )?medium|medium ?(to )?slow|dibbly dobbl\w+|dobbers?", "pace", "slow-medium"),
    (r"\bfast\b|express", "pace", "fast"),
    (r"\bmediums?\b", "pace", "medium"),
    (r"\bseam\w*|\bswing\w*|\bpace\w*|\bswerve", "pace", "pace"),
    (r"\bslows?\b", "spin", "spin"),
]

# The same words otherwise.
SAME = [
    (r"\b(rt|rh|ra)\b|\br (arm|hand|a|h)\b", "right arm"),
    (r"\b(lt|lft|lh|la)\b|\bl (arm|hand|a|h)\b", "left arm"),
    (r"\b(right|left) ?(arm|hand)(ed|er)?s?\b", r"\1 arm"),
    (r"\bround ?arm\b|\bover ?arm\b", ""),  # how the arm goes, not what it bowls
    (r"\b(med|medum|meduim)\b", "medium"),
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
    (r"(r)?a?(ob|os)|roff|(r)a?o", "spin", "finger spin"),
    (r"(r)?a?lbg?|(r)a?ls|([rl])a?ws", "spin", "wrist spin"),
    (r"sl[ao]|slao|la?os?", "spin", "finger spin"),
    (r"sl[acu]?[cuw]|la?[cu]", "spin", "wrist spin"),
]

# What says that there is no style to be read, and what says nothing at all.
NONE = (
    r"none|no|nil|n ?a|non? ?bowl(er|ing)|(does|did|do) ?(not|nt|n t) bowl|not a bowler|never bowls"
    r"|no bowling|(wicket ?)?keeper|wk|unknown|not known|tb[ac]|x+"
)
# A batting hand in the cell of the bowling style is passed over.
BATTING = r".*\b(bats?|batter|batting|batsman|batswoman)\b.*|[rl]hb"
# Words that say no more than that there is an arm.
ARM_ONLY = r"((right|left) ?(arm|handed)?|bowls|bowler|bowling| )+"

# Who bowls it, where the words do not say: a right arm's names and a left arm's.
LEFT_NAMES = rf"chinam[ae]n|{ORTHODOX}|{UNORTHODOX}"
RIGHT_NAMES = (
    r"leg ?(break|brake|spin)|off ?(break|brake|spin)|googl|legg(y|ie)|offie|bosie|doosra|carrom"
)
LEFT_CODES = r"sl[acuow]+|l(?!bg?$)\w*"  # of those in CODES; the others are a right arm's

# What a slip of the pen is nearly: beside a word that can be read it must not be passed over.
WORDS = ("fast", "medium", "slow", "break", "legbreak", "offbreak", "spin", "orthodox", "chinaman")
ARMS = ("left", "right")
NOT = r"\b(not?|non|never)\b"

# Spellings to which an unread one is held, to name the nearest.
KNOWN = (
    *("right-arm fast", "right-arm fast-medium", "right-arm medium-fast", "right-arm medium"),
    *("left-arm fast", "left-arm fast-medium", "left-arm medium-fast", "left-arm medium"),
    *("right-arm slow-medium", "right-arm off-break", "off-break", "off-spin"),
    *("right-arm leg-break", "leg-break", "leg-break googly", "leg-spin", "seamer", "spinner"),
    *("slow left-arm orthodox", "left-arm orthodox", "left-arm wrist-spin", "does not bowl"),
)
