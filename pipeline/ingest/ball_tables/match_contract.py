"""The tables of the layout `ball-tables` that say who met whom: matches and people."""

from __future__ import annotations

from pipeline.ingest.ball_tables.contract import (
    DELIVERIES,
    DISMISSALS,
    INNINGS,
    MATCH_ID,
    Column,
    Table,
)

UNKNOWN = "not known"
GENDERS = ("female", "male", "unknown")
TEAM_TYPES = ("international", "club")
DECISIONS = ("bat", "field")
RESULTS = ("win", "tie", "draw", "no result")
NO_RULE = ("none", "no", "nil", "null", "na", "n/a", "-", "normal")  # in small letters


def _text(name: str, meaning: str, blank: str = UNKNOWN) -> Column:
    return Column(name, "text", meaning, blank)


def _words(name: str, meaning: str, words: tuple[str, ...]) -> Column:
    return Column(name, "text", meaning, UNKNOWN, words=words)


def _needed(name: str, meaning: str) -> Column:
    return Column(name, "text", meaning)


MATCHES = Table(
    "matches",
    "A row a match. One without deliveries (abandoned) may stand in it.",
    (
        MATCH_ID,
        Column("date", "day", "first day of the match"),
        Column("last_day", "day", "its last day", "the same day"),
        _needed("season", "season as people say it: 2016 or 2016/17"),
        _text("competition", "competition or tour, as it is written"),
        _text("match_type", "form of the match; the words are listed below"),
        _words("gender", "whose match it is", GENDERS),
        _words("team_type", "what its sides are", TEAM_TYPES),
        _text("venue", "ground as it is written; the grounds' sheet says which is which"),
        _text("city", "its city"),
        _needed("team_1", "one side"),
        _needed("team_2", "the other side"),
        _text("toss_winner", "side that won the toss: one of the two"),
        _words("toss_decision", "what it chose", DECISIONS),
        _text(
            "winner",
            "side that won, also one that won by a super over: one of the two",
            "nobody, or not known",
        ),
        _text(
            "margin",
            "by how much, as it is written: 3 runs (which is held against the balls), 5 wickets, "
            "or 1 innings, 20 runs",
        ),
        _text(
            "method",
            "rule by which a shortened match was decided, as it is written; a word for no rule "
            "(none, n/a, normal) is an error, since the winner is not held against the balls then",
            "none: by the balls",
        ),
        _words("result", "how it ended", RESULTS),
        Column("overs_limit", "count", "an innings at most", "not limited", unit="overs"),
        Column("balls_per_over", "count", "valid ones (Law 17.1)", "6", 6, 1, 99, "balls"),
        Column(
            "target", "count", "what wins, for the last innings", UNKNOWN, None, 0, 9999, "runs"
        ),
        Column("revision", "count", "version; the highest of several is kept", "1", 1, most=999999),
        Column(
            name="super_overs",
            holds="count",
            meaning="those of super overs, whose balls are in no table",
            blank="none",
            default=0,
            most=99,
            unit="innings",
        ),
        Column(
            "names_on_both_sides",
            "text",
            "names that two players of the match share whom one id stands for",
            "none",
        ),
    ),
    needed=True,
    key=("match_id",),
)

PEOPLE = Table(
    "people",
    "A row a person, name and side as they are written. Without the table an id is a name.",
    (
        _needed("id", "what the other tables call them by"),
        _needed("name", "their name, as it is printed"),
        Column("gender", "text", "theirs", UNKNOWN, "unknown", words=GENDERS),
        _needed("team", "side that they played for"),
        Column("registered", "flag", "0: the id is made of name and side", "1", True),
    ),
    needed=False,
    key=("id", "name", "gender", "team"),
)

TABLES = {table.name: table for table in (MATCHES, DELIVERIES, DISMISSALS, INNINGS, PEOPLE)}
