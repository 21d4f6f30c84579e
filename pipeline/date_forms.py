"""Forms in which days are written, as 'DD/MM/YYYY', and the day that a text says in one."""

from __future__ import annotations

import re
from datetime import date
from functools import lru_cache

ISO = "YYYY-MM-DD"
# Forms that are looked for where dates can't be read.
LIKELY = (
    *("DD/MM/YYYY", "MM/DD/YYYY", "YYYY/MM/DD", "DD-MM-YYYY", "MM-DD-YYYY", "DD.MM.YYYY"),
    *("MM.DD.YYYY", "YYYY.MM.DD", "YYYY-DD-MM", "YYYYMMDD", "DD MMM YYYY", "DD-MMM-YYYY"),
    *("MMM DD, YYYY", "YYYY-MM-DD hh:mm:ss", "YYYY-MM-DDThh:mm:ss", "DD/MM/YYYY hh:mm"),
    "MM/DD/YYYY hh:mm",
)
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_PART = re.compile("YYYY|MMM|MM|DD|hh|mm|ss")


def check_form(form: str) -> None:
    """Raises ValueError for a form that does not say the year, the month and the day once each."""
    parts = _PART.findall(form)
    once = all(parts.count(part) == 1 for part in ("YYYY", "DD"))
    if not once or parts.count("MM") + parts.count("MMM") != 1:
        raise ValueError(f"'{form}' must say YYYY, MM (or MMM) and DD once each, as DD/MM/YYYY")


@lru_cache
def _pattern(form: str) -> re.Pattern[str]:
    """Single digits are read where something stands between the parts; not in the usual form."""
    apart = form != ISO and not re.search("(YYYY|MM|DD){2}", form)
    digits = "{1,2}" if apart else "{2}"
    shapes = {
        "YYYY": "(?P<year>[0-9]{4})",
        "MM": f"(?P<month>[0-9]{digits})",
        "MMM": "(?P<month>[A-Za-z]{3})",
        "DD": f"(?P<day>[0-9]{digits})",
        **dict.fromkeys(("hh", "mm", "ss"), "[0-9]{2}"),
    }
    written, last = "", 0
    for part in _PART.finditer(form):
        written += re.escape(form[last : part.start()]) + shapes[part.group()]
        last = part.end()
    return re.compile(written + re.escape(form[last:]))


def day_of(text: str, form: str = ISO) -> date | None:
    """The day that a text says, or None."""
    found = _pattern(form).fullmatch(text)
    if not found:
        return None
    month = found["month"].lower()
    try:
        number = int(month) if month.isdigit() else MONTHS.index(month) + 1
        return date(int(found["year"]), number, int(found["day"]))
    except ValueError:
        return None
