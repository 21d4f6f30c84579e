"""The planted truths in words, for the README's table."""

from demo_data import planted
from demo_data.planted import EARLY, END, MIDDLE


def per_cent(value: float) -> str:
    """Return a signed per cent with one digit."""
    return f"{100 * value:+.1f} %"


def _drift() -> list[tuple[str, str, str]]:
    calm, end = planted.DRIFT_PER_SEASON[MIDDLE], planted.DRIFT_PER_SEASON[END]
    where = "charged runs per valid ball, pace and spin"
    return [
        ("drift, overs 1-40", f"{per_cent(calm)} a season, compounding", where),
        ("drift, overs 41-50", f"{per_cent(end)} a season, compounding", where),
        (
            "myth: the end overs exploded with the long grass",
            "no step: only the steady drift goes on",
            "overs 41-50, pace and spin, before and after the event",
        ),
    ]


def _long_grass() -> list[tuple[str, str, str]]:
    rows = [
        (
            f"step, {kind}, overs {phase}",
            f"x {step:.2f} ({per_cent(step - 1)})" if step != 1 else "x 1.00 (none)",
            "charged runs per valid ball, after against before, the drift taken out",
        )
        for (kind, phase), step in planted.STEP.items()
    ]
    fours = (
        f"they fall most: about x {planted.FOURS_STEP_ABOUT:.2f} with the drift taken out, "
        f"x {planted.FOURS_FIVE_SEASONS_ABOUT:.2f} with five seasons of it"
    )
    rows.append(("fours off spin in the middle overs", fours, "fours per ball; more ones and twos"))
    return rows


def _mix() -> list[tuple[str, str, str]]:
    before, after = planted.SPIN_SHARE_BEFORE, planted.SPIN_SHARE_AFTER
    return [
        (
            f"mix: spin's share, overs {phase}",
            f"{100 * before[phase]:.0f} % before, {100 * after[phase]:.0f} % after",
            "balls bowled by spin among those of known kind",
        )
        for phase in planted.PHASES
    ]


def _wickets_and_people() -> list[tuple[str, str, str]]:
    chances = planted.WICKET_CHANCE
    by_phase = " / ".join(f"{100 * chances[phase]:.2f} %" for phase in (EARLY, MIDDLE, END))
    tail = planted.WICKET_BY_POSITION[-1]
    no_difference = "no difference"
    return [
        ("wickets: kind, season, event", no_difference, "wickets per valid ball"),
        ("wickets: chance per ball by phase", by_phase, f"places 1-8; the tail x {tail:.1f}"),
        ("sea air: pace at the coast", f"x {planted.COAST['pace']:.2f}", "coast against inland"),
        ("sea air: spin at the coast", f"x {planted.COAST['spin']:.2f}", "coast against inland"),
        ("left- and right-handers: scoring", no_difference, "runs per ball, by phase"),
        ("left- and right-handers: wickets", no_difference, "dismissals per ball, by phase"),
        ("first and second innings", no_difference, "anywhere"),
    ]


def table() -> str:
    """Return the truth to recover as a Markdown table."""
    rows = [("What", "Planted", "Where to see it"), ("---", "---", "---")]
    rows += _drift() + _long_grass() + _mix() + _wickets_and_people()
    return "\n".join(f"| {' | '.join(row)} |" for row in rows)
