"""Corrected deliveries: mended, put in or taken out, with their dismissals, and scored anew.

Every line names deliveries by the numbers that the data give them: a delivery that is put in or
taken out moves no other line's place. The over is numbered anew from 1 when all lines are done.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import duckdb
import numpy as np
import pyarrow as pa

from pipeline.clean.ball_cell import IDS, read_ball
from pipeline.clean.corrections import BALL, Correction
from pipeline.clean.mend_ball import Out, Record, mend, mend_out, take_out
from pipeline.clean.missing import missing, near
from pipeline.errors import UserError
from pipeline.ingest.columns import Codes, finish
from pipeline.tables import DELIVERIES, DISMISSALS, RAW

Over = tuple[str, int, int]  # match, innings, over
KEYS = ("match_id", "innings", "over", "delivery")


class Fixed(NamedTuple):
    """The overs that were touched, whole; `mended` are the places of their rows in the data.

    `leaving` are those who stood on them and no longer do.
    """

    deliveries: pa.Table
    dismissals: pa.Table
    mended: pa.Table
    leaving: set[str]


def fix_deliveries(db: duckdb.DuckDBPyConnection, corrections: list[Correction]) -> Fixed:
    """Apply the lines in their order.

    Reads `played`, `fallen`, `kept`, `kept_innings` and `people`. Raises UserError with every line
    that names what is not there, whose `old` no longer holds, or that can't be applied.
    """
    if not corrections:
        return _made([], [], set())
    mending = _Mending(db, corrections)
    wrong = [(c, said) for c in corrections if (said := mending.apply(c))]
    wrong = wrong or [(c, said) for c in corrections if (said := mending.half_told(c))]
    if wrong:
        raise UserError([c.problem(said) for c, said in wrong])
    rows = mending.numbered()
    return _made(rows, mending.places, mending.there - _on(rows))


class _Mending:
    """The overs that lines name, while they are mended."""

    def __init__(self, db: duckdb.DuckDBPyConnection, corrections: list[Correction]):
        self._db = db
        overs = {_over(each) for each in corrections}
        self.begun = {_over(each) for each in corrections if each.field == BALL and not each.old}
        self.overs: dict[Over, list[Record]] = {over: [] for over in overs}
        self.put_in: dict[Over, list[tuple[int, Record]]] = {over: [] for over in overs}
        self._read()
        self.people = {row[0] for row in db.execute("SELECT id FROM people").fetchall()}
        told = [row for rows in self.overs.values() for row in rows]
        self.places = [tuple(row[key] for key in KEYS) for row in told]
        self.there = _on(told)

    def _read(self) -> None:
        columns = dict(zip(KEYS, zip(*sorted(self.overs), strict=True), strict=False))
        self._db.register("overs", pa.table({name: list(v) for name, v in columns.items()}))
        query = "SELECT d.* FROM {} d JOIN overs USING (match_id, innings, over) ORDER BY delivery"
        rows, fell = (
            self._db.sql(query.format(table)).to_arrow_table().to_pylist()
            for table in ("played", "fallen")
        )
        self._db.unregister("overs")
        by_place = {}
        for row in rows:
            row["outs"], row["taken_out"] = [], None
            by_place[tuple(row[key] for key in KEYS)] = row
            self.overs[row["match_id"], row["innings"], row["over"]].append(row)
        for out in fell:
            row = by_place[tuple(out[key] for key in KEYS)]
            player = out["player_out_id"]
            row["outs"].append(Out(out["kind"], player, player))
        for row in rows:  # the one that the delivery is told by comes first
            first = (row["dismissal"], row["player_out_id"])
            row["outs"].sort(key=lambda out: ((out.kind, out.player) != first, out.player))

    def apply(self, correction: Correction) -> str | None:
        """Do what a line says, or say why it can't be done."""
        if correction.field == BALL and not correction.old:
            return self._put_in(correction)
        row = self._row(correction)
        if row is None:
            return missing(self._db, correction)
        where = correction.where()
        if refused := self._nobody(correction, _players(correction)):
            return refused
        if row["taken_out"] is not None:
            return f"{where}: line {row['taken_out']} takes this delivery out; drop one of them"
        if correction.field == BALL:
            refused = take_out(row, correction)
        elif correction.level == "wicket" or correction.field in ("dismissal", "player_out_id"):
            refused = mend_out(row, correction)
        else:
            refused = mend(row, correction)
        return f"{where}: {refused}" if refused else None

    def _row(self, correction: Correction) -> Record | None:
        rows, number = self.overs[_over(correction)], int(correction.place["delivery"])
        return next((row for row in rows if row["delivery"] == number), None)

    def _put_in(self, correction: Correction) -> str | None:
        ball, _ = read_ball(correction.new)
        over, number = _over(correction), int(correction.place["delivery"])
        refused = self._no_room(correction, number)
        if refused or ball is None:
            return refused
        players = [*(ball.values[name] for name in IDS), *(player for _, player in ball.fell)]
        if refused := self._nobody(correction, players):
            return refused
        row = {**dict(zip(KEYS, over, strict=False)), **self._sides(over), **ball.values}
        row["outs"] = [Out(kind, player, player) for kind, player in ball.fell]
        self.put_in[over].append((number, row))
        return None

    def _nobody(self, correction: Correction, players: list[str]) -> str | None:
        """Who is put in must be somebody of the data."""
        for player in players:
            if player not in self.people:
                like = near(player, self.people)
                return f"{correction.where()}: nobody in the data is '{player}'{like}"
        return None

    def _no_room(self, correction: Correction, number: int) -> str | None:
        """A delivery is put in at a number of its over, or behind the last; a new over likewise."""
        match, innings, over = _over(correction)
        rows = self.overs[match, innings, over]
        if not rows:
            query = "SELECT max(over) FROM played WHERE match_id = ? AND innings = ?"
            last = self._db.execute(query, [match, innings]).fetchall()[0][0] or 0
            while (match, innings, last + 1) in self.begun:  # several overs that are lacking
                last += 1
            known = self._db.execute(
                "SELECT 1 FROM kept_innings WHERE match_id = ? AND innings = ?", [match, innings]
            ).fetchall()
            if not known or not 1 <= over <= last + 1:
                return missing(self._db, correction)
        if not 1 <= number <= len(rows) + 1:
            room = f"expected 1 to {len(rows) + 1} for one that is put in"
            return f"{correction.where()}: that over has {len(rows)} in the data; {room}"
        return None

    def _sides(self, over: Over) -> Record:
        query = (
            "SELECT i.batting_team, CASE WHEN i.batting_team = k.team_1 THEN k.team_2 "
            "ELSE k.team_1 END FROM kept_innings i JOIN kept k USING (match_id) "
            "WHERE match_id = ? AND innings = ?"
        )
        sides = self._db.execute(query, list(over[:2])).fetchall()[0]
        return dict(zip(("batting_team", "bowling_team"), sides, strict=True))

    def half_told(self, correction: Correction) -> str | None:
        """A dismissal and who was out come and go together."""
        row = self._row(correction)
        if row and any(bool(out.kind) != bool(out.player) for out in row["outs"]):
            message = "dismissal and player_out_id go together; correct both"
            return f"{correction.where()}: {message}"
        return None

    def numbered(self) -> list[Record]:
        """All deliveries of the overs in their order, numbered from 1 where any came or went."""
        made = []
        for over, rows in sorted(self.overs.items()):
            places = [(row["delivery"], 1, row) for row in rows if row["taken_out"] is None]
            places += [(number, 0, row) for number, row in self.put_in[over]]
            places.sort(key=lambda place: place[:2])
            made += [{**row, "delivery": n} for n, (_, _, row) in enumerate(places, start=1)]
        return made


def _over(correction: Correction) -> Over:
    place = correction.place
    return place["match"], int(place["innings"]), int(place["over"])


def _players(correction: Correction) -> list[str]:
    """Whom a line that mends a delivery names anew."""
    players = [correction.new] if correction.field in (*IDS, "player_out_id") else []
    if correction.field == "dismissal" and not correction.old:
        players.append(correction.place.get("player_out", ""))
    return [player for player in players if player]


def _on(rows: list[Record]) -> set[str]:
    """Everybody who stands on some deliveries."""
    ends = {row[role] for row in rows for role in IDS}
    return ends | {out.player for row in rows for out in row["outs"] if out.player}


def _made(rows: list[Record], places: list[tuple[Any, ...]], leaving: set[str]) -> Fixed:
    columns = list(zip(*places, strict=True)) or [()] * len(KEYS)
    types = (pa.string(), pa.int64(), pa.int64(), pa.int64())
    given = [pa.array(values, kind) for values, kind in zip(columns, types, strict=True)]
    mended = pa.table(given, names=list(KEYS))
    if not rows:
        return Fixed(DELIVERIES.empty_table(), DISMISSALS.empty_table(), mended, leaving)
    raw: Record = {}
    for field in RAW:
        values = [row[field.name] for row in rows]
        if isinstance(field.type, pa.DictionaryType):
            codes = Codes()
            raw[field.name] = codes.column([codes[value] for value in values])
        else:
            raw[field.name] = np.array(values, bool if field.type == pa.bool_() else np.int16)
    wickets = [
        (number, out.kind, out.player)
        for number, row in enumerate(rows)
        for out in row["outs"]
        if out.kind and out.player
    ]
    made = finish(raw, wickets, [], [], set())
    return Fixed(made.deliveries, made.dismissals, mended, leaving)
