"""What a number is of, as it is said: 'spin’s economy in the middle overs'."""

from __future__ import annotations

from typing import Any

from pipeline.config.cuts import CUTS
from pipeline.text import listed, possessive
from pipeline.wording.labels import value_label

View = dict[str, Any]


def subject(finding: View, beat: View, measure: View, form: View) -> str:
    """The measure with its owner, and where and for whom; no value is in it."""
    fixed = {cut: [value] for cut, value in finding["values"].items()}
    fixed |= {cut: values for cut, values in beat["where"].items() if values and cut not in fixed}
    owner = next((cut for cut in CUTS if CUTS[cut].owner and cut in fixed), None)
    if beat["kind"] == "share":
        owner = None
    rest = {cut: values for cut, values in fixed.items() if cut != owner}
    phrases = [f"in overs {rest['overs'][0]} to {rest['overs'][1]}"] if "overs" in rest else []
    phrases += [phrase(cut, rest[cut], form) for cut in CUTS if cut in rest]
    name = measure["label"] if owner else measure.get("said") or measure["label"]
    if owner:
        whose = listed([value_label(owner, value, form) for value in fixed[owner]])
        name = f"{possessive(whose)} {name}"
    return " ".join([name, *phrases])


def phrase(cut: str, values: list[str], form: View) -> str:
    """A filter or a cell in a sentence: 'at coast grounds', 'in the middle overs'."""
    if cut == "phase":
        said = [form["phases"].get(value, {}).get("said") for value in values]
        if all(said):
            return listed(said)
    labels = [value_label(cut, value, form).replace("–", " to ") for value in values]
    return CUTS[cut].phrase.format(listed(labels))


def sides_said(finding: View, beat: View, form: View) -> tuple[str, str]:
    """The two sides at the end of a clause: 'before', or 'at coast grounds'."""
    a, b = finding["sides"]
    if finding["about"] != "groups":
        return a, b
    (cut,) = beat["between"]
    return phrase(cut, [a], form), phrase(cut, [b], form)
