"""Bowling styles and batting hands as scorecards, annuals and spreadsheets write them."""

from __future__ import annotations

FINGER, WRIST, SPIN = ("spin", "finger spin"), ("spin", "wrist spin"), ("spin", "spin")
FAST, FAST_MEDIUM, MEDIUM_FAST = ("pace", "fast"), ("pace", "fast-medium"), ("pace", "medium-fast")
MEDIUM, SLOW_MEDIUM, PACE = ("pace", "medium"), ("pace", "slow-medium"), ("pace", "pace")

# One style: who bowls it, what it is, and its spellings with '|' or a line's end between.
ONE = [
    (
        "right",
        FAST,
        """Right arm Fast | right-arm fast | RIGHT ARM FAST | Right-arm  fast | R/A Fast | RA fast
RF | raf | R.F. | r a fast | Rt arm fast | right handed fast bowler | Right-arm quick""",
    ),
    (
        "right",
        FAST_MEDIUM,
        """Right arm Fast medium | right-arm fast-medium | RFM | r.f.m. | RAFM | RA fast medium""",
    ),
    (
        "right",
        MEDIUM_FAST,
        """Right arm Medium fast | right-arm medium-fast | RMF | Right-arm medium/fast""",
    ),
    (
        "right",
        MEDIUM,
        """Right arm Medium | Right-arm medium-pace | RM | RAM | R.M | Right-arm med | RMP
R medium | Right arm medium pace | right-arm medium-paced | right arm mediums
Rt-arm medium | Right‑arm medium | right_arm_medium | Right-arm medium (right-arm)
Right arm, medium""",
    ),
    (
        "right",
        SLOW_MEDIUM,
        """Right-arm slow-medium | right arm medium slow | RSM | right-arm dibbly-dobblies""",
    ),
    (
        "right",
        PACE,
        """Right-arm seam | right arm seamer | Right-arm seam up | right-arm swing bowler
right-arm pace | right-arm cutters | right-arm off-cutters | Right arm leg cutter""",
    ),
    (
        "left",
        FAST,
        """Left arm Fast | left-arm fast | LF | LAF | L/A fast | left-handed fast | Lft arm fast""",
    ),
    (
        "left",
        FAST_MEDIUM,
        """Left arm Fast medium | left-arm fast-medium | LFM | l.f.m | LAFM | LA fast medium""",
    ),
    (
        "left",
        MEDIUM_FAST,
        """Left arm Medium fast | LMF | left-arm medium quick | left-arm medium to fast""",
    ),
    (
        "left",
        MEDIUM,
        """Left arm Medium | LM | Left-arm medium-pace | L med
left arm med pace | lt arm medium""",
    ),
    (
        "left",
        SLOW_MEDIUM,
        """Left arm Slow medium | left-arm slow-medium | LSM | LAMS""",
    ),
    (
        "right",
        FINGER,
        """Right arm Offbreak | right-arm off-break | Right-arm off-spin | Off break | offbreak
OB | ROB | RAOB | OS | off-spinner | Off Spin | offspin | off breaks | Right-arm offie
RO | Right arm off | right-arm off brake | Right-arm finger-spin
medium-paced off-breaks""",
    ),
    (
        "right",
        WRIST,
        """Legbreak | leg-break | Leg Break | leg breaks | LB | RLB | Right-arm leg-spin
legspinner | Legbreak googly | leg-break googly | LBG | leg break & googly
leg-breaks and googlies | Leg-break/googly | Right-arm wrist-spin | RWS | leggie
googly | right arm leg break, lbg | bosie | right-arm bosies | legbrake | Légbreak
right-arm leg-break (LBG) | Right-arm lb""",
    ),
    (
        "left",
        FINGER,
        """Slow left-arm orthodox | Slow Left Arm Orthodox | SLA | SLO | SLAO | Slow left arm | LAO
LO | left-arm orthodox | Left arm Orthodox | Orthodox left-arm | left-arm finger spin
slow orthodox | slow left-arm bowler | S.L.A. | left-arm orthodox spin | Slow left-arm""",
    ),
    (
        "left",
        WRIST,
        """Slow left-arm chinaman | Left arm Wrist spin | left-arm wrist-spin | LWS | chinaman
SLC | left-arm unorthodox spin | Slow left-arm unorthodox | left-arm unorthodox | SLU
LAC | Left-arm googly | left-arm leg-spin | left arm chinaman bowler
slow left arm wrist spin""",
    ),
    (
        "left",
        SPIN,
        """Left arm slow | left-arm spin | left-arm spinner | Left-handed slow""",
    ),
    (
        "right",
        SPIN,
        """Right-arm slow | right arm spin | right-arm mystery spin
slow right-arm | Right spin""",
    ),
    (
        "unknown",
        MEDIUM,
        """medium-pace | Medium | med | medium pacer""",
    ),
    (
        "unknown",
        FAST,
        """fast | Quick | fast bowler | express""",
    ),
    (
        "unknown",
        PACE,
        """seamer | seam | swing | pace | paceman | swing bowler | Seam-up""",
    ),
    (
        "unknown",
        FAST_MEDIUM,
        """fast medium | Fast/medium | fast–medium""",
    ),
    (
        "unknown",
        SPIN,
        """spin | spinner | slow | slow bowler | spin bowler""",
    ),
]

# Words of another style, hand or side beside those that decide.
ONE += [
    ("right", FAST_MEDIUM, "RF/M | RAF/M"),
    ("left", MEDIUM_FAST, "LM/F"),
    ("left", SLOW_MEDIUM, "Left arm slow/medium"),
    ("right", MEDIUM, "Left-hander. Right-arm medium | right-arm unorthodox medium"),
    ("right", FINGER, "right-arm unorthodox off-spin"),
    ("unknown", FINGER, "orthodox off-spin"),
    ("unknown", SPIN, "medium-pace spin | slow-medium spinner"),
    ("left", FINGER, "rhb left arm orthodox"),
]

# Codes, remarks, hands and the names of fields around a style; words run together; one style by
# two names.
ONE += [
    (
        "right",
        MEDIUM,
        """RHB RM | Bowls: RM | R M | R/H medium | Right-arm medium (wk)
wk, right-arm medium | wk (RM)
Bats L, Bowls R medium | Right-arm medium all-rounder | {Right-arm medium} | Rt.arm Medium
right arm medium, left-hand bat | ; right-arm medium | Right arm bowler, medium""",
    ),
    ("right", FAST, "right-arm fast (roundarm) | right-arm fast bowling all-rounder"),
    ("right", FAST_MEDIUM, "all-rounder, right-arm fast-medium | RHB & RFM | RA FM"),
    ("right", MEDIUM_FAST, "Batting: RHB; Bowling: RMF | Right arm med. fast"),
    ("right", PACE, "seam bowler (right arm)"),
    (
        "right",
        FINGER,
        """RHB; right arm offbreak | LHB OB | OBs | Bowling style: off break | part-time off-spin
off-break (part-time) | wk/off-break | RightArmOffbreak | rightarm offbreak | R.arm off break
Bats: left; Bowls: off-break | Left-handed, off-break | off-breaks at medium pace
slow-medium off-breaks | spin (off) | right-arm slow (off-break) | off-break and doosra
off spin bowler, part-time | Spin bowling (Off break)""",
    ),
    (
        "right",
        WRIST,
        "RHB, LBG | occasional leg-breaks | spin (leg) | RALBG | leg breaks; right-arm",
    ),
    ("left", FAST_MEDIUM, "LeftArmFastMedium | fast-medium (L) | LEFT ARM FAST MEDIUM,"),
    ("left", MEDIUM, "LHB - LM | Bats right, bowls left-arm medium | LHB (left-arm medium)"),
    ("left", FINGER, "LHB/SLA | left-arm orthodox, doosra | left arm (slow orthodox) | slow l.a."),
    (
        "left",
        WRIST,
        """googly, slow left-arm chinaman | chinaman and googly | left-arm chinaman, googly
slow left-arm (chinaman) | slow left arm, chinaman | S.L.A.C. | LAU""",
    ),
    ("left", SPIN, "slow (left-arm) | spin: left arm | LA spin"),
    ("unknown", MEDIUM, "medium leg cutters | medium-pace swing"),
    ("unknown", FAST_MEDIUM, "pace (fast-medium)"),
]

# Several styles in one cell: the first, then the others.
SEVERAL = [
    ("Right arm Medium, Right arm Offbreak", ("right", *MEDIUM), [("right", *FINGER)]),
    ("right-arm fast/legbreak", ("right", *FAST), [("right", *WRIST)]),
    ("offbreak and medium", ("right", *FINGER), [("right", *MEDIUM)]),
    ("OB/RM", ("right", *FINGER), [("right", *MEDIUM)]),
    ("RM, OB", ("right", *MEDIUM), [("right", *FINGER)]),
    ("Left-arm medium; slow left-arm orthodox", ("left", *MEDIUM), [("left", *FINGER)]),
    ("left-arm orthodox & chinaman", ("left", *FINGER), [("left", *WRIST)]),
    ("Right-arm medium (also off-break)", ("right", *MEDIUM), [("right", *FINGER)]),
    ("Right arm Medium Right arm Offbreak", ("right", *MEDIUM), [("right", *FINGER)]),
    ("medium / slow left-arm", ("left", *MEDIUM), [("left", *FINGER)]),
    ("right-arm medium + leg-break", ("right", *MEDIUM), [("right", *WRIST)]),
    ("right-arm off-break and left-arm orthodox", ("right", *FINGER), [("left", *FINGER)]),
    ("RMF, OB, LB", ("right", *MEDIUM_FAST), [("right", *FINGER), ("right", *WRIST)]),
    ("Right-arm medium - off-break", ("right", *MEDIUM), [("right", *FINGER)]),
    ("Right-arm medium \u2013 off-break", ("right", *MEDIUM), [("right", *FINGER)]),
    ("Right-arm medium. Off-break.", ("right", *MEDIUM), [("right", *FINGER)]),
    ("Right-arm medium\tOff-break", ("right", *MEDIUM), [("right", *FINGER)]),
    ("Right-arm medium | off spin", ("right", *MEDIUM), [("right", *FINGER)]),
    *(
        (text, ("right", *MEDIUM), [("right", *FINGER)])
        for text in (
            *("medium with off-breaks", "medium: off-break", "right-arm medium, off-breaks"),
            *("RM-OB", "RM OB", "RM (OB)", "RAM/RAOB", "RHB RM OB", "Right-arm medium [off-break]"),
            *("right arm medium \\ off break", "right-arm medium·off-break", "medium > off-break"),
            *("right-arm medium as well as off-breaks", "right arm medium <br> off break"),
        )
    ),
    ("right arm medium pace with leg breaks", ("right", *MEDIUM), [("right", *WRIST)]),
    ("RIGHT_ARM_OFFBREAK_AND_LEGBREAK", ("right", *FINGER), [("right", *WRIST)]),
    ("leg and off breaks", ("right", *WRIST), [("right", *FINGER)]),
    ("LBs & OBs", ("right", *WRIST), [("right", *FINGER)]),
    ("SLA/SLC", ("left", *FINGER), [("left", *WRIST)]),
    ("RAFM / RALB", ("right", *FAST_MEDIUM), [("right", *WRIST)]),
    ("right-arm medium, SLA", ("right", *MEDIUM), [("left", *FINGER)]),
    ("Left-arm medium & slow", ("left", *MEDIUM), [("left", *SPIN)]),
    ("fast, medium, slow", ("unknown", *FAST), [("unknown", *MEDIUM), ("unknown", *SPIN)]),
]

# Nothing is told, and nothing is left unread.
NOTHING = "|none|None|does not bowl|Doesn't bowl|did not bowl|does not  bowl.|non-bowler|N/A|n/a|-"
NOTHING += "|?|nil|unknown|not known|wicket-keeper|Wicketkeeper|WK|no bowling|TBC|—|never bowls"
NOTHING += "|does not bowl (wk)|none; wk|#N/A|nan|Not Applicable|has never bowled|not recorded|???"

# The arm that is read, and what can't be: of the whole cell, or of a part beside one that can.
UNREAD = [
    ("juggler", "unknown", "juggler"),
    ("Right-arm bowler", "right", "right-arm bowler"),
    ("left-arm", "left", "left-arm"),
    ("LS", "unknown", "ls"),
    ("RHB", "unknown", "rhb"),
    ("Rigth-arm ofbreak", "unknown", "rigth arm ofbreak"),
    ("breakfast", "unknown", "breakfast"),
    ("underarm", "unknown", "underarm"),
    ("投手", "unknown", "投手"),
    ("right-arm fast, juggler", "right", "juggler"),
    ("juggler, off-break", "right", "juggler"),
    ("leg-spin (left arm)", "unknown", "leg spin"),
    ("left-handed right-arm medium", "unknown", "left arm right arm medium"),
    ("Rigth arm medium", "unknown", "rigth arm medium"),
    # Whose arm: the names of both arms meet, or a hand may be how somebody bats.
    ("off-break, slow left-arm orthodox", "unknown", "off break"),
    ("OB, SLA", "unknown", "ob"),
    ("right-arm medium, chinaman", "right", "chinaman"),
    ("leg breaks; left-arm", "unknown", "leg breaks"),
    ("Left-handed, medium", "unknown", "left-handed"),
    ("R", "right", "r"),
    # What is said of a style with no style, or against it.
    ("part-time", "unknown", "part-time"),
    ("all-rounder", "unknown", "all-rounder"),
    ("does not bowl, off-break", "right", "does not bowl"),
    ("medium, but mainly off-breaks", "right", "but mainly off breaks"),
    ("LC", "unknown", "lc"),
    ("DNB", "unknown", "dnb"),
]

# A slip of the pen, a "not" or a batting hand beside a word that can be read: no style is told.
NO_STYLE = [
    *(
        "right-arm fast-mediun",
        "right arm medim fast",
        "slow-mediun",
        "fast legbreck",
        "fsat medium",
    ),
    *("never bowls fast", "no-spin", "not off spin", "right-arm medium bat"),
    *("Left-hand bat right-arm medium, off-break", "Right-hand bat off-break, medium"),
    # Two kinds, or both spins, with nothing between them.
    *("right-arm medium off-break", "right arm medium pace off break", "off-break medium"),
    *("fast off-breaks", "off break leg break", "left-arm orthodox chinaman", "medium into spin"),
    *("slow left-arm medium", "medium then off-breaks", "right-arm medium-off-break"),
    # Not of today, not for sure, of both arms, under the arm; another style with the other arm.
    *("formerly fast, now off-breaks", "was fast", "off-break?", "maybe off-break"),
    *("right and left arm spin", "left/right arm medium", "either arm spin", "ambidextrous spin"),
    *("underarm fast", "under-arm lobs", "right arm chinaman", "left-arm off-break"),
    *("left-arm leg break", "medium pcae", "left-arm wirst spin", "right arm fst medium"),
]

HANDS = {
    "left": "left|L|LHB|lh|Left|LEFT|left-hand bat|Left-handed bat|left hand batter|l.h.b.|lefty|"
    "Left hander|bats left|Left-hand batsman|left-handed batswoman|L/H|left-handed",
    "right": "right|R|RHB|RH|Right Hand Bat|right-handed bat|right-hander|R.H.B|bats right|righty|"
    "right handed batter|right bat",
    "unknown": "|unknown|?|-|n/a|not known",
}
HANDS_UNREAD = "lefft|both|LB|switch|either|右|left right"
