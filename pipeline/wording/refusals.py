"""Why there is no number: the reason, where it holds, and the line that gives it."""

from __future__ import annotations

from pipeline.contracts.codes import Refusal
from pipeline.contracts.finding import Finding, Gap
from pipeline.voice.sentence import Told
from pipeline.wording import numbers
from pipeline.wording.clusters import refusing

REFUSALS: dict[Refusal, str] = {
    "no_balls": "there is not a ball of it",
    "few_matches": "there are too few matches",
    "none_counted": "it never happened",
    "one_match_holds_all": "one match holds all of it",
    "few_effective": "a few long matches outweigh the rest",
    "no_spread": "its matches do not differ, so luck can’t be gauged",
    "mix_alike": "each had the same share before and after",
    "few_points": "there are too few {points} to look for a date",
    "no_scatter": "its {points} show no scatter that a step could be held against",
    "nothing_to_divide_by": "at one point of the series there is nothing to divide by",
    "none_at_an_end": "one end of the series has none of it, and a step to none has no size",
    "few_clusters": "one of the two groups has too few {cluster}s",
    "one_cluster_holds_all": "all of a group comes from a single {cluster}",
    "uneven_clusters": "a single {cluster} outweighs the others of its group",
}
OF_A_SIDE = ("no_balls", "few_matches", "none_counted", "one_match_holds_all", "few_effective")
TOO_LITTLE = (*OF_A_SIDE, "few_points", "none_at_an_end", "few_clusters")


def refused_said(what: str, finding: Finding, sides: tuple[str, str] | None = None) -> str:
    """Why there is no number of it, and on which of its `sides`, as they end a clause."""
    return Told("refused.number", what=what, reason=refusal_said(finding, sides))


def refused_in_short(finding: Finding) -> str:
    """As a title or a drawing has room for: 'too little to say', where it is for too little."""
    return "too little to say" if finding.refused in TOO_LITTLE else "no figure"


def refusal_said(finding: Finding, sides: tuple[str, str] | None = None) -> str:
    """The reason alone: 'there are only three matches before it'."""
    if finding.refused is None:
        raise ValueError(f"{finding.id} is not refused")
    where = _where(finding, sides or _in_time(finding))
    fewest = min(finding.a.matches, finding.b.matches)
    if finding.refused == "few_matches" and fewest:
        noun = "is only one match" if fewest == 1 else f"are only {numbers.said(fewest, 0)} matches"
        return f"there {noun}{where}"
    points = f"{finding.asks.every or 'season'}s"
    reason = REFUSALS[finding.refused].format(points=points, cluster=refusing(finding))
    return f"{reason}{where}"


def _in_time(finding: Finding) -> tuple[str, str]:
    """The sides of a change; of a gap, whose sides are groups, none in particular."""
    return finding.sides if finding.sides == ("before", "after") else ("", "")


def _where(finding: Finding, sides: tuple[str, str]) -> str:
    """' before', where it is one side that the number is refused for; ' before or after'."""
    if finding.refused not in OF_A_SIDE or isinstance(finding, Gap) or not all(sides):
        return ""
    told = [
        name
        for name, side in zip(sides, (finding.a, finding.b), strict=True)
        if side.refused == finding.refused
    ]
    return f" {' or '.join(told)}" if told else ""
