"""One innings, ball by ball: the pair, the overs, the wickets and the end of a chase."""

import random
from collections import deque
from dataclasses import dataclass, field

from demo_data import planted, scoring
from demo_data.balls import Ball, Rate, draw_ball
from demo_data.bowling import Attack, plan_kinds
from demo_data.people import Player
from demo_data.sides import Conditions, Limits, Side

MISCOUNTED = 1 / 2000
MISCOUNT_AS_TEXT = 0.4
RETIRED_HURT = 1 / 15000
NON_STRIKER_RUN_OUT = 0.5
SUBSTITUTE, UNNAMED_SUBSTITUTE = 0.03, 0.3
CAUGHT_BY_KEEPER = 0.3
KEEPER_PLACE = 5


@dataclass
class Innings:
    """An innings being played; `play` fills the overs in the layout of the match files."""

    rng: random.Random
    conditions: Conditions
    batting: Side
    fielding: Side
    limits: Limits
    score: int = 0
    wickets: int = 0
    overs: list[dict] = field(default_factory=list)
    miscounted: dict[str, dict] = field(default_factory=dict)
    guests: list[Player] = field(default_factory=list)

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
            self._play_over(number, phase_over, bowler)
            if self.finished:
                break

    def _play_over(self, number: int, phase_over: int, bowler: Player) -> None:
        length = self.rng.choice((5, 7)) if self.rng.random() < MISCOUNTED else 6
        rates: dict[int, Rate] = {}
        deliveries: list[dict] = []
        valid = 0
        while valid < length and not self.finished:
            position, batter = self.striker
            if position not in rates:
                rates[position] = self._rate(phase_over, position, batter, bowler)
            ball = draw_ball(self.rng, bowler.kind, rates[position])
            deliveries.append(self._bowl(ball, bowler))
            valid += ball.valid
        self.overs.append({"over": number, "deliveries": deliveries})
        if valid == length != 6:
            balls = str(length) if self.rng.random() < MISCOUNT_AS_TEXT else length
            self.miscounted[str(number)] = {"balls": balls}
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

    def _bowl(self, ball: Ball, bowler: Player) -> dict:
        """Record a ball, then move the batters."""
        runs = {"batter": ball.bat, "extras": sum(ball.extras.values()), "total": ball.total}
        if ball.all_run_four:
            runs["non_boundary"] = True
        delivery = {
            "batter": self.striker[1].name,
            "bowler": bowler.name,
            "non_striker": self.partner[1].name,
            "runs": runs,
        }
        if ball.extras:
            delivery["extras"] = ball.extras
        self.score += ball.total
        leaver = self._leaver(ball)
        if leaver:
            delivery["wickets"] = [self._wicket(ball.wicket or "retired hurt", leaver[1], bowler)]
        if ball.ran % 2:
            self._change_ends()
        if leaver:
            self._replace(leaver, hurt=ball.wicket is None)
        return delivery

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

    def _wicket(self, kind: str, out: Player, bowler: Player) -> dict:
        wicket = {"kind": kind, "player_out": out.name}
        fielders = self._fielders(kind, bowler)
        if fielders:
            wicket["fielders"] = fielders
        return wicket

    def _fielders(self, kind: str, bowler: Player) -> list[dict]:
        """Name who took part; now and then it is a substitute, sometimes unnamed."""
        keeper = self.fielding.eleven[KEEPER_PLACE - 1]
        if kind == "stumped" or (kind == "caught" and self.rng.random() < CAUGHT_BY_KEEPER):
            return [{"name": keeper.name}]
        if kind not in ("caught", "run out"):
            return []
        if self.rng.random() < SUBSTITUTE:
            return [self._substitute()]
        able = [p for p in self.fielding.eleven if p not in (keeper, bowler)]
        number = 1 if kind == "caught" else self.rng.randint(1, 2)
        return [{"name": p.name} for p in self.rng.sample(able, number)]

    def _substitute(self) -> dict:
        if not self.fielding.spare or self.rng.random() < UNNAMED_SUBSTITUTE:
            return {"substitute": True}
        guest = self.rng.choice(self.fielding.spare)
        self.guests.append(guest)
        return {"name": guest.name, "substitute": True}
