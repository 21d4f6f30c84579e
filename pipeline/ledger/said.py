"""What a comparison asks, in the plain words of a ledger's line."""

from __future__ import annotations

from pipeline.contracts.comparison import Balls, Comparison


def asked_of(asks: Comparison) -> str:
    """'change of economy: bowler_kind spin, overs 7-15; held against phase death'."""
    parts = [f"{asks.asks} of {asks.measure}: {_balls(asks.balls)}"]
    parts += [f"by {', '.join(asks.divided)}"] if asks.divided else []
    parts += [f"by {asks.every}"] if asks.every else []
    parts += [f"at least {asks.at_least}"] if asks.at_least else []
    if asks.control:
        held = [*asks.control.competition]
        held += [_balls(asks.control.balls)] if asks.control.balls else []
        parts.append(f"held against {', '.join(held)}")
    return " ".join("; ".join(parts).split())


def _balls(balls: Balls) -> str:
    return ", ".join(f"{cut} {' or '.join(values)}" for cut, values in balls) or "all balls"


def side_of(values: tuple[str, ...]) -> str:
    """The seasons of a window, its days, or a group."""
    return " ".join("; ".join(values).split())
