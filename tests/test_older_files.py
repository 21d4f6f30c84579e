"""Charts, facts and summaries as 0.8 wrote them, in editions that are kept, are read as today's."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from pipeline.contracts.facts import Charts, Facts, Summary
from pipeline.contracts.files import FORMAT, as_json, read_json
from pipeline.contracts.upgrades.facts import (
    charts_of_format_0,
    facts_of_format_0,
    summary_of_format_0,
)
from pipeline.errors import UserError

# What stood in the files of 0.8, every field of it.
CHART = {
    **{"chart": "coast.economy", "beat": "coast", "measure": "economy", "title": "The coast"},
    **{"alt": "Economy.", "rows_left_out": 2, "hold_seconds": 8.0, "frames": ["a.png"]},
}
FACT = {
    **{"id": "coast.economy.change", "value": -0.042, "low": -0.06, "high": -0.024},
    **{"unit": "per cent", "display": "−4.2%", "spoken": "about four per cent down"},
    **{"interval": "−6.0 to −2.4", "finding": "coast.economy", "beat": "coast"},
    **{"measure": "economy", "definition": "runs for every six balls", "arithmetic": None},
    **{"query": "coast", "headline": True, "verdict": "changed"},
}
COUNT = {**dict.fromkeys(FACT), "id": "data.matches", "value": 560, "headline": False}
COUNT |= {"unit": "matches", "display": "560", "spoken": "five hundred and sixty"}
SUMMARY = {
    **{"topic": "sea-air", "title": "Is it?", "question": "Does it?", "answer": ["It does."]},
    **{"fingerprint": "2baa345d", "matches": "560 matches", "first": "2009-04-11"},
    **{"last": "2022-09-04", "looked_at": 11, "cant_tell": 4},
}
CASES = [
    (Charts, charts_of_format_0, [CHART]),
    (Facts, facts_of_format_0, [FACT, COUNT]),
    (Summary, summary_of_format_0, SUMMARY),
]


def written(folder: Path, content: object) -> Path:
    path = folder / "file.json"
    path.write_text(json.dumps(content), "utf-8")
    return path


@pytest.mark.parametrize(("kind", "upgrade", "content"), CASES)
def test_no_field_is_lost_or_changed(tmp_path: Path, kind, upgrade, content):
    found = read_json(written(tmp_path, content), kind, upgrade=upgrade)
    again = json.loads(as_json(found))
    assert again.pop("format") == FORMAT
    again = again if isinstance(content, dict) else next(iter(again.values()))
    if kind is Facts:
        new = dict.fromkeys(("level", "digits", "unit_said", "second")) | {"scale": 1.0}
        for fact in again:  # what 0.8 did not write
            assert {name: fact.pop(name) for name in new} == new
    if kind is Summary:
        assert again.pop("checked") == []  # no version of before checked a script
    assert again == content
    (tmp_path / "file.json").write_text(as_json(found), "utf-8")
    assert read_json(tmp_path / "file.json", kind, upgrade=upgrade) == found


def test_dates_are_dates(tmp_path: Path):
    found = read_json(written(tmp_path, SUMMARY), Summary, upgrade=summary_of_format_0)
    assert (found.first, found.last) == (date(2009, 4, 11), date(2022, 9, 4))


@pytest.mark.parametrize(("kind", "upgrade", "_"), CASES)
@pytest.mark.parametrize("content", ["text", 3, None, [1], {"facts": []}, [{**FACT, "more": 1}]])
def test_what_is_none_of_them_is_told(tmp_path: Path, kind, upgrade, _, content):
    with pytest.raises(UserError, match=r"file\.json: not what .*; run make brief"):
        read_json(written(tmp_path, content), kind, upgrade=upgrade)


def test_another_format_s_number_is_not_read(tmp_path: Path):
    path = written(tmp_path, {"format": FORMAT + 1, "facts": []})
    with pytest.raises(UserError, match=f"format {FORMAT + 1}, and this version reads {FORMAT};"):
        read_json(path, Facts, upgrade=facts_of_format_0)
