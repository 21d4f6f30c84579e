"""One innings, ball by ball: the pair, the overs, the wickets and the end of a chase."""

import random
from collections import deque
from dataclasses import dataclass, field

from demo_data import planted, scoring
from demo_data.balls import Ball, Rate, draw_ball
from demo_data.bowling import Attack, plan_kinds
from demo_data.people import Player
from demo_data.sides import Conditions, Limits, Side
from demo_data.unwritten import draw_fielders, draw_how_balls_are_written

MISCOUNTED = 1 / 2000
RETIRED_HURT = 1 / 15000
NON_STRIKER_RUN_OUT = 0.5


@dataclass(frozen=True)
class Delivery:
    """A ball with the three it was between, and how somebody left after it, if one did."""

    batter: Player
    non_striker: Player
    bowler: Player
    ball: Ball
    out: tuple[str, Player] | None


@dataclass
class Innings:
    """An innings being played; `play` fills the overs, and names those that were miscounted."""

    rng: random.Random
    conditions: Conditions
    batting: Side
    fielding: Side
    limits: Limits
    score: int = 0
    wickets: int = 0
    overs: list[list[Delivery]] = field(default_factory=list)
    miscounted: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Send in the opening pair."""
        order = list(enumerate(self.batting.eleven, start=1))
        self.striker, self.partner = order[:2]
        self.waiting = deque(order[2:])

    @property
    def finished(self) -> bool:
        """Tell whether no further ball can be bowled, whatever the overs."""
        target = self.limits.target
        return self.wickets >= self.limits.wickets or (target is not None and self.score >= target)

    def play(self) -> None:
        """Play until the overs, the wickets or the chase are over."""
        most = -(-self.limits.overs // 5)
        attack = Attack(self.fielding.eleven, most)
        last = self.limits.first_over + self.limits.overs
        kinds = plan_kinds(self.rng, self.conditions.season, last)
        for number in range(self.limits.overs_bowled):
            phase_over = number + self.limits.first_over
            bowler = attack.choose(self.rng, kinds[phase_over], phase_over)
            self._play_over(phase_over, bowler)
            if self.finished:
                break

    def _play_over(self, phase_over: int, bowler: Player) -> None:
        length = self.rng.choice((5, 7)) if self.rng.random() < MISCOUNTED else 6
        rates: dict[int, Rate] = {}
        deliveries: list[Delivery] = []
        valid = 0
        while valid < length and not self.finished:
            position, batter = self.striker
            if position not in rates:
                rates[position] = self._rate(phase_over, position, batter, bowler)
            ball = draw_ball(self.rng, bowler.kind, rates[position])
            deliveries.append(self._bowl(ball, bowler))
            valid += ball.valid
        self.overs.append(deliveries)
        if valid == length != 6:
            draw_how_balls_are_written(self.rng)
            self.miscounted.append(len(self.overs))
        self._change_ends()

    def _rate(self, over: int, position: int, batter: Player, bowler: Player) -> Rate:
        """Turn the planted rate, the noise and the skills into chances for a ball."""
        at, kind, phase = self.conditions, bowler.kind, scoring.phase_of(over)
        charged = scoring.charged_per_ball(kind, phase, at.season, at.region) * at.effect
        charged *= planted.SCORING_BY_POSITION[position - 1]
        charged *= at.skills.of(batter, bowler)
        wicket = scoring.wicket_chance(kind, phase, position)
        ladder = scoring.ladder(kind, phase, at.season >= planted.EVENT_SEASON)
        return Rate(ladder.cumulative(scoring.bat_mean(charged, kind, wicket)), wicket)

    def _bowl(self, ball: Ball, bowler: Player) -> Delivery:
        """Record a ball, then move the batters."""
        batter, non_striker = self.striker[1], self.partner[1]
        self.score += ball.total
        leaver = self._leaver(ball)
        out = None
        if leaver:
            kind = ball.wicket or "retired hurt"
            draw_fielders(self.rng, kind, self.fielding, bowler)
            out = (kind, leaver[1])
        if ball.ran % 2:
            self._change_ends()
        if leaver:
            self._replace(leaver, hurt=ball.wicket is None)
        return Delivery(batter, non_striker, bowler, ball, out)

    def _change_ends(self) -> None:
        self.striker, self.partner = self.partner, self.striker

    def _leaver(self, ball: Ball) -> tuple[int, Player] | None:
        """Return who leaves after the ball: the striker, but for some run outs."""
        if ball.wicket == "run out" and self.rng.random() < NON_STRIKER_RUN_OUT:
            return self.partner
        if ball.wicket:
            return self.striker
        hurt = self.waiting and self.rng.random() < RETIRED_HURT
        return self.striker if hurt else None

    def _replace(self, leaver: tuple[int, Player], *, hurt: bool) -> None:
        """Send in the next batter; one who retired hurt comes back after all others."""
        if hurt:
            self.waiting.append(leaver)
        else:
            self.wickets += 1
        if not self.waiting or self.finished:
            return
        incoming = self.waiting.popleft()
        if leaver is self.striker:
            self.striker = incoming
        else:
            self.partner = incoming
