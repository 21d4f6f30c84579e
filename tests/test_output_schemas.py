"""The schemas of what is written: current, valid, kept to by every file, and not by any other."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from pipeline.batches import LIST, NOTE
from pipeline.compare.command import compare
from pipeline.config import views
from pipeline.config.load import load
from pipeline.contracts.files import FORMAT, as_json
from pipeline.contracts.findings import Family, Findings
from pipeline.contracts.json_schemas import CONTRACTS, schema
from pipeline.errata.command import correction
from pipeline.records.places import FOLDER as FOLDER_OF_RECORDS
from pipeline.script.command import script
from pipeline.script.stage import write_check
from tests.conftest import ROOT
from tests.editions import TOPIC, archive, project_of
from tests.finding_makers import change, gap
from tests.seasons import season, selection, windows

FOLDER = ROOT / "config" / "schema" / "outputs"
DATES = jsonschema.FormatChecker(["date"])


def check(name: str, content: Any) -> None:
    against = json.loads(schema(name))
    jsonschema.validate(content, against, jsonschema.Draft202012Validator, format_checker=DATES)


def findings(**more: Any) -> dict[str, Any]:
    """A file of two findings, as it is written."""
    chosen = selection([season(2016), season(2017)], windows(["2016"], ["2017"]))
    none = dict.fromkeys(("looked_at", "headlines", "tables", "refused", "changed", "held"), 0)
    family = Family(**none, cant_tell=0, alpha=0.05, table_rate=0.1, looks=[])
    made = Findings(
        data=chosen.data,
        fingerprint="2baa345d",
        corrections=[],
        seasons=chosen.seasons,
        timing=chosen.timing,
        headlines=[],
        family=family,
        findings=[change(), gap("b.economy.spin")],
        series={},
        samples={},
        lists={},
        queries={},
    )
    return {**json.loads(as_json(made)), **more}


@pytest.mark.parametrize("name", CONTRACTS)
def test_the_schemas_are_current_and_valid(name: str):
    text = schema(name)
    assert (FOLDER / f"{name}.json").read_text("utf-8") == text, "make schema"
    jsonschema.Draft202012Validator.check_schema(json.loads(text))


def test_no_schema_is_of_a_file_that_is_none():
    assert {path.stem for path in FOLDER.iterdir()} == set(CONTRACTS)


def test_what_is_made_keeps_to_its_schema():
    check("findings", findings())


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        ({"format": 0}, f"{FORMAT} was expected"),
        ({"more": 1}, "'more' was unexpected"),
        ({"fingerprint": None}, "None is not of type 'string'"),
        ({"seasons": [{"label": "2016", "first": "1 May 2016"}]}, "is not a 'date'|is a required"),
        (
            {"findings": [{**findings()["findings"][0], "verdict": "rose"}]},
            "is not valid under any",
        ),
        ({"findings": [{**findings()["findings"][0], "about": "hunch"}]}, "is not valid under any"),
    ],
)
def test_what_is_not_what_a_file_should_hold_is_seen(wrong: dict[str, Any], message: str):
    with pytest.raises(jsonschema.ValidationError, match=message):
        check("findings", findings(**wrong))


@pytest.mark.slow
def test_every_file_of_the_demo_keeps_to_its_schema(
    built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """Those of its data and topics, of an edition that is archived, and what is said of it."""
    monkeypatch.chdir(project_of(built, tmp_path, TOPIC, "long-grass"))
    archive()
    compare([TOPIC, "long-grass", "--json", "output/compare-topics.json"])
    compare([f"{TOPIC}/1", "--json", "output/compare.json"])
    correction(["coast.economy.pace.change", "--json", "output/correction.json"])
    correction(["--edition", f"{TOPIC}/1", "--json", "output/correction-edition.json"])
    script([TOPIC, "--keep"])
    script([TOPIC, "--json", "output/script.json"])
    write_check(views.brief(load("config", only=TOPIC), TOPIC), Path("output") / TOPIC)
    seen = set()
    for path in sorted(tmp_path.glob("output/**/*.json")):
        content = json.loads(path.read_text("utf-8"))
        # read by this version alone
        kept = path.parent.name == FOLDER_OF_RECORDS or path.name in (NOTE, LIST)
        if isinstance(content, dict) and "format" in content and not kept:
            check(path.stem, content)
            seen.add(path.stem)
    assert seen == set(CONTRACTS)
