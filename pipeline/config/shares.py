"""Shares of the balls: the measure that a share beat makes of its `of`."""

from __future__ import annotations

from pipeline.config.cuts import CUTS
from pipeline.config.fields import Margin
from pipeline.config.kinds.share import Share, share_name
from pipeline.config.project import Measure
from pipeline.config.topic import Topic

MARGIN = Margin(size=0.6, unit="points")  # two balls in a full one-day innings


def share_measure(of: dict[str, list[str]]) -> Measure:
    """Valid balls of the named kind out of those whose kind is known."""
    ((cut, values),) = of.items()
    named = " and ".join(CUTS[cut].labels.get(value, value) for value in values)
    link = "to" if cut == "batter_hand" else "by"
    whose = f"{named}’" if named.endswith("s") else f"{named}’s"
    return Measure(
        label=f"{whose} share of the balls",
        numerator="legal",
        denominator="legal",
        per=100,
        kind="share",
        unit="per cent of balls",
        spoken="per cent",
        decimals=1,
        rise_favours="neither",
        margin=MARGIN,
        defined=f"valid balls {link} {named}, as a share of those whose {CUTS[cut].name} is known",
    )


def measures_of(topic: Topic, declared: dict[str, Measure]) -> dict[str, Measure]:
    """Every measure the topic uses, in the order of its beats: declared ones, and its shares."""
    found: dict[str, Measure] = {}
    for beat in topic.beats:
        if isinstance(beat, Share):
            found[share_name(beat.of)] = share_measure(beat.of)
        else:
            found |= {name: declared[name] for name in beat.measure}
    return found
