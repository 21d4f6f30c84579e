"""Facts of other topics that a topic cites: what a script says of them is theirs."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import structs

from pipeline.asked_fact import chief
from pipeline.contracts.base import Contract
from pipeline.contracts.editions import CitedFacts
from pipeline.contracts.files import read_json
from pipeline.contracts.findings import Findings
from pipeline.editions.reading import VERIFY, read_facts, read_view

if TYPE_CHECKING:
    from pipeline.config.views import BriefView


def cited_facts(view: BriefView, archive: Path) -> list[CitedFacts]:
    """By edition, those of the topic's `see_also` that are there; the brief tells what is not.

    Findings of 0.8 have no questions that a number could be held to: such an edition is left out.
    """
    asked: dict[str, list[str]] = {}
    for item in view.words.see_also:
        edition, _, name = item.fact.partition(":")
        asked.setdefault(edition, []).append(name)
    folders = {edition: archive / edition / "data" for edition in asked}
    return [
        _of_edition(edition, asked[edition], folder, view)
        for edition, folder in folders.items()
        if folder.is_dir() and not _is_of_format_0(folder)
    ]


class _Written(Contract, forbid_unknown_fields=False):
    """Of findings.json by which version it was written."""

    before: bool = False


def _is_of_format_0(folder: Path) -> bool:
    path = folder / "findings.json"
    return read_json(path, _Written, VERIFY, lambda _: {"before": True}).before


def _of_edition(edition: str, names: Iterable[str], folder: Path, view: BriefView) -> CitedFacts:
    every = read_facts(folder, VERIFY)
    facts = [fact for name in names if (fact := chief(name, every))]
    of = {fact.finding for fact in facts}
    found = read_json(folder / "findings.json", Findings, VERIFY)
    own = [finding for finding in found.findings if finding.id in of]
    seen = read_view(folder, type(view), "brief", VERIFY).model_dump(mode="json")
    findings = structs.replace(
        found, findings=own, series={}, samples={}, lists={}, queries={}, corrections=[]
    )
    return CitedFacts(edition=edition, view=seen, findings=findings, facts=facts)
