"""One match: toss, innings, interruptions and result."""

import random
from dataclasses import dataclass, replace
from datetime import timedelta

from demo_data import league
from demo_data.league import GROUNDS, Fixture
from demo_data.play import Innings
from demo_data.sides import Conditions, Limits, Side
from demo_data.tables import Outcome, Played
from demo_data.unwritten import draw_day_of_sending, draw_player_of_the_match

FIELD_FIRST = 0.55
CITY_MISSING, SECOND_SPELLING, REVISED = 0.08, 0.3, 0.05
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

    def play(self) -> Played:
        """Play the match."""
        winner, decision = self._toss()
        other = next(side for side in self.sides if side is not winner)
        batting, fielding = (winner, other) if decision == "bat" else (other, winner)
        played = Played(self.fixture, self.sides, (winner.club, decision), Outcome(""), [])
        self._play_innings(played, batting, fielding)
        self._write_down(played)
        return played

    def _write_down(self, played: Played) -> None:
        """Draw what the scorer wrote of the match: its ground, with the untidiness there is."""
        ground = GROUNDS[self.fixture.home]
        usual, *others = ground.spellings
        second = others and self.rng.random() < SECOND_SPELLING
        played.venue = others[0] if second else usual
        played.city = None if self.rng.random() < CITY_MISSING else ground.city
        draw_player_of_the_match(self.rng, decided=played.outcome.winner is not None)
        draw_day_of_sending(self.rng)
        played.revision = 2 if self.rng.random() < REVISED else 1
        reserve_days = 1 if self.special == "no result" else 0
        played.last_day = self.fixture.day + timedelta(days=reserve_days)

    def _toss(self) -> tuple[Side, str]:
        decision = "field" if self.rng.random() < FIELD_FIRST else "bat"
        return self.rng.choice(self.sides), decision

    def _play_innings(self, played: Played, batting: Side, fielding: Side) -> None:
        """Play both innings, and super overs after a tie."""
        first = self._first_innings(batting, fielding)
        played.innings.append(first)
        played.outcome = Outcome("no result")
        if first.limits.rain_after is not None:
            return
        second = self._chase(first)
        played.innings.append(second)
        if self.special == "penalty post":
            played.penalties[1] = (0, PENALTY)
        if self.special == "penalty pre":
            played.penalties[2] = (PENALTY, 0)
        if second.limits.rain_after is not None:
            return
        played.outcome = self._outcome(first, second)
        if played.outcome.result == "tie":
            played.super_overs = 2  # innings
            played.outcome.winner = self._super_overs(second.batting, first.batting)

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

    def _outcome(self, first: Innings, second: Innings) -> Outcome:
        target = second.limits.target
        if second.score == target - 1:
            return Outcome("tie")
        method = "rain rule" if self.special == "rain" else None
        if second.score >= target:
            wickets = f"{10 - second.wickets} wickets"
            return Outcome("win", second.batting.club, wickets, method)
        runs = f"{target - 1 - second.score} runs"
        return Outcome("win", first.batting.club, runs, method)

    def _super_overs(self, batting: Side, fielding: Side) -> str:
        """Play one over a side, again until it decides, and return whose it was."""
        while True:
            first = self._innings(batting, fielding, SUPER_OVER)
            limits = replace(SUPER_OVER, target=first.score + 1)
            second = self._innings(fielding, batting, limits)
            if second.score != first.score:
                winner = second if second.score > first.score else first
                return winner.batting.club
