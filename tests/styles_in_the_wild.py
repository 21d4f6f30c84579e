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
]

# Nothing is told, and nothing is left unread.
NOTHING = "|none|None|does not bowl|Doesn't bowl|did not bowl|does not  bowl.|non-bowler|N/A|n/a|-"
NOTHING += "|?|nil|unknown|not known|wicket-keeper|Wicketkeeper|WK|no bowling|TBC|—|never bowls"

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
]

HANDS = {
    "left": "left|L|LHB|lh|Left|LEFT|left-hand bat|Left-handed bat|left hand batter|l.h.b.|lefty|"
    "Left hander|bats left|Left-hand batsman|left-handed batswoman|L/H|left-handed",
    "right": "right|R|RHB|RH|Right Hand Bat|right-handed bat|right-hander|R.H.B|bats right|righty|"
    "right handed batter|right bat",
    "unknown": "|unknown|?|-|n/a|not known",
}
HANDS_UNREAD = "lefft|both|LB|switch|either|右|left right"
