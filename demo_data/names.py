"""Names made of syllables, so that they belong to no one."""

import random
from collections.abc import Iterator
from itertools import product

# fmt: off
FIRST_SYLLABLES = (
    "Brim", "Dorr", "Esk", "Fald", "Ghel", "Hask", "Ibbr", "Jund", "Kesk", "Lorv", "Mirn", "Nald",
    "Orsk", "Pelv", "Quorr", "Rusk", "Sunth", "Thren", "Ulv", "Velm", "Wesk", "Yarl", "Zand",
)
LAST_SYLLABLES = (
    "bock", "dane", "fenn", "gatt", "lisk", "mund", "nock", "pell", "rith", "stell", "tarn",
    "vick", "wend", "zell",
)
# fmt: on
MIDDLE_SYLLABLES = "aeiou"
INITIALS = "ABCDEFGHIJKLMNOPRSTUVWYZ"
ACCENTED = ("É Brimévick", "Z Thrönalisk", "M Ñaldopell")


def invented(rng: random.Random) -> Iterator[str]:
    """Yield an initial and a surname, never the same surname twice."""
    parts = product(FIRST_SYLLABLES, MIDDLE_SYLLABLES, LAST_SYLLABLES)
    surnames = ["".join(part) for part in parts]
    rng.shuffle(surnames)
    for surname in surnames:
        yield f"{rng.choice(INITIALS)} {surname}"
