"""Explain: everything behind a number, and the same number made again; numbers said are facts."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import duckdb
import pytest

from pipeline.contracts.files import read_json
from pipeline.contracts.finding import drift_of
from pipeline.contracts.findings import Findings
from pipeline.errors import UserError
from pipeline.explain.command import explain, find_fact
from pipeline.wording import numbers, phrases
from tests.editions import project_of, record
from tests.fact_makers import facts_of, write_facts

pytestmark = pytest.mark.slow
UNITS = "nought one two three four five six seven eight nine ten eleven twelve hundred thousand"
TENS = "twenty thirty forty fifty sixty seventy eighty ninety"
WORD = "|".join([*UNITS.split(), r"[a-z]+teen", *TENS.split(), "point"])
JOINED = rf"[ -](?:{WORD})|(?:(?<=hundred)|(?<=thousand)) and (?:{WORD})"
SPOKEN = re.compile(rf"\b(?:{WORD})(?:{JOINED}| and (?:a half|a third|two thirds))*\b")
# Words that are no numbers, and numbers that belong to a phrase.
ASIDE = re.compile(
    r" of a percentage point| percentage points?\b|: \w+ and a half overs|: \w+ overs|half an over|"
    r"half a |\d+ to \d+|"
    r"\bdid one move|\bone (?:moved|of \w+|names?)|only one|if one|than one|"
    r"numbers \d+|a hundred balls|turning point|main numbers"
)


@pytest.mark.parametrize(
    ("topic", "fact"),
    [
        ("long-grass", "kinds.economy.spin-middle.change"),
        ("long-grass", "kinds.economy.spin-middle.step"),
        ("long-grass", "kinds.economy.spin-middle.like-for-like"),
        ("long-grass", "kinds.economy.spin-middle.held-still"),
        ("long-grass", "kinds.economy.spin-middle.same-in"),
        ("long-grass", "rate.run_rate.2015"),
        ("long-grass", "who.spin-share.felt"),
        ("sea-air", "coast.economy.pace.difference"),
        ("sea-air", "data.balls"),
        ("sea-air", "family.looked_at"),
        ("who-paid", "apart.economy.middle.spin"),
        ("who-paid", "captains.economy.mix.change"),
        ("who-paid", "captains.economy.spin.share-after"),
        ("who-paid", "when.economy.date"),
        ("who-paid", "fours.boundary_share.spin.beyond-control"),
        ("who-paid", "names.economy.players-kept"),
    ],
)
def test_a_fact_is_made_again_as_printed(
    built: Path, topic: str, fact: str, capsys: pytest.CaptureFixture[str], monkeypatch
):
    monkeypatch.chdir(built)
    explain([fact, "--topic", topic])
    said = capsys.readouterr().out
    assert said.startswith(f"{topic}: {fact} = {facts_of(built, topic)[fact].display}")
    assert said.rstrip().endswith("made again  the same as printed, and to nine digits")


def test_a_player_has_the_sums_matches_and_a_query_that_runs(built: Path, capsys, monkeypatch):
    monkeypatch.chdir(built)
    explain(["kinds.economy.spin-middle.change"])
    said = capsys.readouterr().out
    assert re.search(r"before +4\.47477 from 18,134 / 24,315 × 6 \(runs_bowler / legal\)", said)
    for heading in (
        "what",
        "after",
        "test",
        "verdict",
        "drift",
        "interval",
        "corrections",
        "query",
    ):
        assert re.search(rf"^  {heading}\b", said, re.MULTILINE), heading
    assert "match ts-2018-05, innings 1, over 22, delivery 1" in said
    query = re.search(r"^  query\n(.+?)\n  made again", said, re.DOTALL | re.MULTILINE)[1]
    summed = (
        f"SELECT sum(y0), sum(x0) FROM ({query}) "
        "WHERE bowler_kind = 'spin' AND phase = 'middle' AND \"window\" = 'before'"
    )
    rows = duckdb.connect().sql(summed).fetchall()
    assert rows == [(18_134, 24_315)]


def test_outputs_older_than_the_data_are_told(built: Path, tmp_path: Path, monkeypatch, capsys):
    monkeypatch.chdir(project_of(built, tmp_path))
    facts = facts_of(built, "sea-air")
    facts["coast.economy.pace.change"].value += 0.01
    write_facts(Path("output/sea-air"), facts.values())
    with pytest.raises(
        UserError, match=r"facts\.json: is not as it was written .*; run make brief"
    ):
        explain(["coast.economy.pace.change"])
    record()  # as an older version of the code would have left it
    with pytest.raises(UserError, match="the outputs are older than the data"):
        explain(["coast.economy.pace.change"])
    assert "NOT the same" in capsys.readouterr().out


def test_what_cannot_be_found_is_hinted(built: Path, tmp_path: Path):
    output = built / "output"
    with pytest.raises(UserError, match=r"no such fact \(did you mean 'wickets\."):
        find_fact("wickets.bowling_strike_rate.chnge", None, output)
    with pytest.raises(UserError, match="3 topics have it: long-grass, sea-air, who-paid"):
        find_fact("data.matches", None, output)
    with pytest.raises(UserError, match="no built topic here; run make brief first"):
        find_fact("data.matches", None, tmp_path)


def test_the_command_line_names_its_commands():
    root = Path(__file__).parents[1]
    run = [sys.executable, "-m", "pipeline"]
    environment = {**os.environ, "PYTHONPATH": str(root)}

    def output_of(*words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [*run, *words], capture_output=True, text=True, env=environment, check=False
        )

    wrong = output_of("explian")
    assert wrong.returncode == 1 and "did you mean 'explain'" in wrong.stderr
    assert "explain FACT" in output_of().stdout


def roundings(number: float) -> set[str]:
    """A size as it may be said, to two decimals at most."""
    said = (numbers.said, phrases.value_said)
    return {say(abs(number), decimals) for say in said for decimals in range(3)}


def of_facts(built: Path, topic: str) -> set[str]:
    """Every fact's value and the ends of its interval; a fraction also in per cent."""
    found = set()
    for fact in facts_of(built, topic).values():
        for number in (fact.value, fact.low, fact.high):
            if number is not None:
                found |= roundings(number)
                if fact.unit.startswith("per cent") and "of balls" not in fact.unit:
                    found |= roundings(number * 100)
    return found


def of_second_verdicts(built: Path, topic: str) -> set[str]:
    """What the drift alone comes to, and how many were tested; neither is a fact."""
    found = set()
    for finding in read_json(built / "output" / topic / "findings.json", Findings).findings:
        found.add(numbers.said(finding.family_size, 0))
        if (drift := drift_of(finding)) and drift.test:
            found |= roundings(drift.test.expected.value * 100)
            found.add(numbers.said(drift.family_size, 0))
    return found


@pytest.mark.parametrize("topic", ["long-grass", "sea-air", "who-paid"])
def test_every_number_said_is_a_fact(built: Path, topic: str):
    """Each number of the lines to say is a fact's value or an end of its interval, spelled out.

    Or what stands behind the second verdict.
    """
    allowed = {numbers.said(n, 0) for n in (5, 10, 20, 30, 40, 50)}  # margins, spells, overs
    allowed.add(numbers.said(300, 0))  # the threshold of a list, from the topic itself
    allowed |= of_facts(built, topic) | of_second_verdicts(built, topic)
    lines = (built / "output" / topic / "talking-points.md").read_text("utf-8")
    said = [line for line in lines.splitlines() if line.startswith("- ") and "(" not in line]
    found = 0
    for line in said:
        for each in SPOKEN.findall(ASIDE.sub(" ", line.lower())):
            found += 1
            assert each in allowed, (each, line)
    assert found > 10
