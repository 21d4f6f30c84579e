"""Names in a row: what all share is said once, and only where a listener can tell what it was."""

from __future__ import annotations

import pytest

from pipeline.wording.shared_words import shared_once


@pytest.mark.parametrize(
    ("named", "said"),
    [
        (
            ["the run rate in overs 1 to 5", "the run rate in overs 6 to 10"],
            ["the run rate in overs 1 to 5 or 6 to 10"],
        ),
        (
            [
                "spin’s share of the balls in the powerplay",
                "spin’s share of the balls at the death",
            ],
            ["spin’s share of the balls in the powerplay or at the death"],
        ),
        (
            ["pace’s economy in the powerplay", "pace’s economy in the middle overs"],
            ["pace’s economy in the powerplay or in the middle overs"],
        ),
        (
            ["pace’s economy in the powerplay", "pace’s economy at the death", "spin’s economy"],
            ["pace’s economy in the powerplay, pace’s at the death or spin’s"],
        ),
        (
            [
                "the gap in the powerplay",
                "the gap at the death",
                "pace’s economy",
                "spin’s economy",
            ],
            ["the gap in the powerplay or at the death", "pace’s economy or spin’s"],
        ),
        (
            ["the gap in economy", "pace’s economy", "spin’s bowling average"],
            ["the gap in economy", "pace’s economy", "spin’s bowling average"],
        ),
        (
            ["economy at coast grounds", "economy at inland grounds"],
            ["economy at coast grounds or at inland grounds"],
        ),
        (
            ["the run rate", "the run rate at the death"],
            ["the run rate", "the run rate at the death"],
        ),
        (["economy"], ["economy"]),
    ],
)
def test_what_names_share_is_said_once(named: list[str], said: list[str]):
    assert shared_once(named, "economy") == said
