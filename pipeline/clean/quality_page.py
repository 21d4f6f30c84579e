"""The quality report for people: a short table on the terminal, and one page."""

from __future__ import annotations

from pipeline.clean.copies_by_ball import OF_DELIVERY, OVER
from pipeline.clean.named import OF_PEOPLE
from pipeline.config.cuts import COVERED_NAMES
from pipeline.contracts.quality import Duplicates, Odd, Quality
from pipeline.contracts.selection import Fix
from pipeline.ingest.oddities import PLAY as OF_PLAY
from pipeline.templating import environment, style
from pipeline.wording import numbers

ODD = {
    "overs_of_odd_length": "Overs of an odd length, the last of an innings aside",
    "innings_that_lack_overs": "Innings that lack overs before their last",
    "matches_that_lack_an_innings": "Matches that lack an innings before their last",
    "winners_that_disagree": "Winners that disagree with the balls",
    "margins_that_disagree": "Margins in runs that disagree with the balls",
    "targets_that_disagree": "Targets that disagree with the first innings",
    "target_overs_that_cannot_be_read": "Target overs that can’t be read",
    "one_name_several_people": "One name, several people",
    "one_person_several_names": "One person, several names",
    "one_name_on_both_sides": "One name on both sides of a match, not told apart",
    "people_without_id": "People without an id: told by name and side",
    "people_without_id_of_both_genders": "People without an id, one name and side, both genders",
    "styles_that_cannot_be_read": "Bowling styles that can’t be read",
    "hands_that_cannot_be_read": "Batting hands that can’t be read",
    "ids_of_old_form": "Lines of the players’ sheet with an id of the older form",
    "lines_of_nobody": "Lines of the players’ sheet that are of nobody in the data",
    "bowlers_of_several_styles": "Bowlers of several styles, counted under the first",
    "matches_that_may_be_one": "Matches of two sources that may be one under two ids",
    "venues_that_may_be_one_ground": "Venues that may be spellings of one ground",
    "sides_of_both_genders": "Sides of one name, men’s and women’s",
    "venues_in_several_cities": "Venues of one name in several cities",
    "match_types_of_no_format": "Match types that formats.yaml does not cover",
    # Of what was read, before corrections and with every copy of a match (ingest/oddities.py).
    "dismissed_at_neither_end": "Players out who were at neither end, timed out aside",
    "batters_in_for_nobody": "New batters though nobody was out or retired",
    "batters_at_both_ends": "Deliveries with one batter at both ends",
    "bowlers_who_bat_in_the_innings": "Bowlers who bat in the innings that they bowl in",
    "overs_past_the_limit": "Innings with overs past the match’s limit",
    "winners_of_neither_side": "Matches won by neither of their sides",
    "tosses_won_by_neither_side": "Tosses won by neither side of the match",
    "forfeited_with_deliveries": "Innings marked as forfeited that have deliveries",
    "told_of_without_deliveries": "Matches told of beside the rows that have no delivery",
    "files_without_deliveries": "Files with a header and no delivery under it",
}

UNREAD = {"styles_that_cannot_be_read": "styles", "hands_that_cannot_be_read": "hands"}
FEW = 5  # warnings of a kind on the terminal


def summary(report: Quality) -> list[tuple[str, str]]:
    """The figures of the short table, as (name, figure)."""
    counts, checked, odd = report.counts, report.checked, report.odd
    quarantined = sum(len(source.quarantined) for source in report.sources)
    strays = sum(sum(source.stray_keys.values()) for source in report.sources)
    rows = [
        ("matches kept", f"{counts['matches']:,} of {counts['matches_read']:,} read"),
        ("duplicates dropped", _dropped(report)),
        ("matches that may be one", f"{odd['matches_that_may_be_one'].count:,}"),
        ("mistakes set aside", f"{quarantined:,}"),
        ("innings", f"{counts['innings']:,}, {counts['innings_forfeited']:,} forfeited"),
        ("deliveries kept", f"{counts['deliveries']:,} of {counts['deliveries_read']:,} read"),
        ("super overs set aside", f"{counts['super_overs_set_aside']:,}"),
        ("targets reduced", f"{counts['targets_reduced']:,}; first innings’ limits: not known"),
        ("unknown keys passed over", f"{strays:,}"),
        ("overs of odd length", f"{odd['overs_of_odd_length'].count:,}"),
        ("targets that agree", _agree(checked["targets"], odd["targets_that_disagree"])),
        ("winners that agree", _agree(checked["winners"], odd["winners_that_disagree"])),
    ]
    rows += [(f"known {COVERED_NAMES[name]}", _share(v)) for name, v in report.coverage.items()]
    unread = [(f"{UNREAD[name]} that can’t be read", odd[name].count) for name in UNREAD]
    unread += [("players’ sheet, lines of nobody", odd["lines_of_nobody"].count)]
    unread += [("odd play", sum(odd[name].count for name in OF_PLAY))]
    rows += [(name, f"{count:,}") for name, count in unread if count]
    return [*rows, ("corrections applied", f"{len(report.corrections):,}")]


def _dropped(report: Quality) -> str:
    count, differing = report.counts["duplicates_dropped"], report.duplicates.differing
    return f"{count:,} ({differing:,} with differences)" if count else "0"


def _agree(checked: int, disagree: Odd) -> str:
    return f"{checked - disagree.count:,} of {checked:,} that can be checked"


def _share(value: float | None) -> str:
    return "no balls" if value is None else numbers.percent(value, 1, signed=False)


def table(report: Quality) -> list[str]:
    """The summary as lines of text."""
    rows = summary(report)
    width = max(len(name) for name, _ in rows)
    lines = [f"  {name:<{width}}  {figure}" for name, figure in rows]
    return ["quality of the data (all of it: quality.html)", *lines, *_warnings(report)]


def _warnings(report: Quality) -> list[str]:
    """Cells of the sheets that hide balls until they are mended, the first of each kind."""
    lines = []
    for name in (*UNREAD, "ids_of_old_form"):
        told = report.odd[name].examples
        lines += [f"  warning: {line}" for line in told[:FEW]]
        if len(told) > FEW:
            lines.append(f"  warning: and {len(told) - FEW:,} more such; quality.html lists them")
    return lines


def _correction(fix: Fix, called: dict[str, str]) -> tuple[str, str, str, Fix]:
    """Where it is, what was and what is, with people by name; and the line itself."""
    place = {n: called.get(v, v) if n in OF_PEOPLE else v for n, v in fix.place.items()}
    where = ", ".join(f"{name.replace('_', ' ')} {value}" for name, value in place.items())
    names = called if fix.field.endswith("_id") else {}
    was, now = (names.get(text, text) or "blank" for text in (fix.old, fix.new))
    return where, was, now, fix


def _of_copies(told: Duplicates) -> list[tuple[str, list[str]]]:
    """What copies differ in, and what only the dropped ones have, a line a field."""
    differs = [
        f"{_plain(field)}: {_copies(count)}{_times(field, told.times.get(field, count))}"
        for field, count in told.fields.items()
    ]
    lost = [f"{_plain(field)}: {_copies(count)}" for field, count in told.lost.items()]
    return [
        ("What differs, by field", differs),
        ("What only the dropped copy has, by field", lost),
    ]


def _plain(field: str) -> str:
    return field.replace("_", " ")


def _copies(count: int) -> str:
    return numbers.counted(count, "copy", "copies")


def _times(field: str, count: int) -> str:
    """In how many deliveries or overs, of a field of those."""
    if field == OVER:
        return f", {numbers.counted(count, 'over')}"
    of_balls = field.startswith(OF_DELIVERY)
    return f", {numbers.counted(count, 'delivery', 'deliveries')}" if of_balls else ""


def page(report: Quality, publisher: str) -> str:
    """The whole report as one HTML page."""
    odd = [(title, report.odd[name]) for name, title in ODD.items() if report.odd[name].count]
    fixes = [_correction(fix, report.called) for fix in report.corrections]
    return (
        environment()
        .get_template("quality.html.jinja")
        .render(
            css=style("quality.css"),
            publisher=publisher,
            summary=summary(report),
            sources=report.sources,
            odd=odd,
            duplicates=report.duplicates,
            of_copies=_of_copies(report.duplicates),
            nothing=[
                title[0].lower() + title[1:]
                for name, title in ODD.items()
                if not report.odd[name].count
            ],
            corrections=fixes,
        )
    )
