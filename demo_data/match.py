"""One match: toss, innings, interruptions and result, in the layout of the match files."""

import random
from dataclasses import dataclass, replace
from datetime import timedelta

from demo_data import league
from demo_data.league import Fixture
from demo_data.match_file import innings_record, match_record
from demo_data.play import Innings
from demo_data.sides import Conditions, Limits, Side

FIELD_FIRST = 0.55
RAIN_IN_FIRST_INNINGS = 0.5
PENALTY = 5
SUPER_OVER = Limits(overs=1, wickets=2, first_over=league.OVERS - 1)


@dataclass
class Match:
    """A match in play; `special` is the incident planned for it, mostly none."""

    rng: random.Random
    fixture: Fixture
    conditions: Conditions
    sides: tuple[Side, Side]
    special: str

    def play(self) -> dict:
        """Play the match and return its record."""
        winner, decision = self._toss()
        other = next(side for side in self.sides if side is not winner)
        batting, fielding = (winner, other) if decision == "bat" else (other, winner)
        played, records, outcome = self._play_innings(batting, fielding)
        toss = {"winner": winner.club, "decision": decision}
        record = match_record(self.rng, self.fixture, self.sides, toss, outcome, played)
        if self.special == "no result":
            reserve_day = self.fixture.day + timedelta(days=1)
            record["info"]["dates"].append(reserve_day.isoformat())
        return {**record, "innings": records}

    def _toss(self) -> tuple[Side, str]:
        decision = "field" if self.rng.random() < FIELD_FIRST else "bat"
        return self.rng.choice(self.sides), decision

    def _play_innings(
        self, batting: Side, fielding: Side
    ) -> tuple[list[Innings], list[dict], dict]:
        """Play both innings, and super overs after a tie."""
        first = self._first_innings(batting, fielding)
        if first.limits.rain_after is not None:
            return [first], [innings_record(first)], {"result": "no result"}
        second = self._chase(first)
        played, records = [first, second], [innings_record(first), innings_record(second)]
        if self.special == "penalty post":
            records[0]["penalty_runs"] = {"post": PENALTY}
        if self.special == "penalty pre":
            records[1]["penalty_runs"] = {"pre": PENALTY}
        if second.limits.rain_after is not None:
            return played, records, {"result": "no result"}
        outcome = self._outcome(first, second)
        if outcome.get("result") == "tie":
            overs, outcome["eliminator"] = self._super_overs(second.batting, first.batting)
            played += overs
            records += [{**innings_record(over), "super_over": True} for over in overs]
        return played, records, outcome

    def _first_innings(self, batting: Side, fielding: Side) -> Innings:
        limits = Limits(league.OVERS)
        if self.special == "no result" and self.rng.random() < RAIN_IN_FIRST_INNINGS:
            limits = replace(limits, rain_after=self.rng.randint(12, 40))
        innings = self._innings(batting, fielding, limits)
        if self.special == "penalty post":
            innings.score += PENALTY
        return innings

    def _innings(self, batting: Side, fielding: Side, limits: Limits, score: int = 0) -> Innings:
        innings = Innings(self.rng, self.conditions, batting, fielding, limits, score)
        innings.play()
        return innings

    def _chase(self, first: Innings) -> Innings:
        """Play the chase; again, until it is tied just when a tie is planned."""
        overs, target = league.OVERS, first.score + 1
        if self.special == "rain":
            overs = self.rng.randint(20, 42)
            target = first.score * overs // league.OVERS + 1
        limits = Limits(overs, target=target)
        if self.special == "no result":
            limits = replace(limits, rain_after=self.rng.randint(5, 18))
        start = PENALTY if self.special == "penalty pre" else 0
        while True:
            chase = self._innings(first.fielding, first.batting, limits, start)
            tied = chase.score == target - 1
            if tied == (self.special == "tie"):
                return chase

    def _outcome(self, first: Innings, second: Innings) -> dict:
        target = second.limits.target
        if second.score == target - 1:
            return {"result": "tie"}
        if second.score >= target:
            outcome = {"winner": second.batting.club, "by": {"wickets": 10 - second.wickets}}
        else:
            margin = target - 1 - second.score
            outcome = {"winner": first.batting.club, "by": {"runs": margin}}
        if self.special == "rain":
            outcome["method"] = "rain rule"
        return outcome

    def _super_overs(self, batting: Side, fielding: Side) -> tuple[list[Innings], str]:
        """Play one over a side, again until it decides."""
        while True:
            first = self._innings(batting, fielding, SUPER_OVER)
            limits = replace(SUPER_OVER, target=first.score + 1)
            second = self._innings(fielding, batting, limits)
            if second.score != first.score:
                winner = second if second.score > first.score else first
                return [first, second], winner.batting.club
