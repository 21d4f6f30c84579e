"""The edition as an RO-Crate 1.2: what each file is, and what was made of what, with what.

Properties are schema.org's, as in the context of RO-Crate 1.2. The crate's root is the payload
folder. An entity whose id begins with '#' is described here and is no file of the crate.
"""

from __future__ import annotations

import mimetypes
from pathlib import Path
from typing import Any
from urllib.parse import quote

from pipeline.archive.bag import digests
from pipeline.contracts.editions import Credit, Edition, Input, Inputs
from pipeline.contracts.facts import Summary
from pipeline.text import capitalised
from pipeline.topic_files import BRIEF, CHECK, WHAT

Entity = dict[str, Any]  # by the names of schema.org
CONTEXT = "https://w3id.org/ro/crate/1.2/context"
VERSION = "https://w3id.org/ro/crate/1.2"
ITSELF = "ro-crate-metadata.json"
TYPES = {
    ".md": "text/markdown",
    ".yaml": "application/yaml",
    ".csv": "text/csv",
    ".json": "application/json",
    ".parquet": "application/vnd.apache.parquet",
    ".svg": "image/svg+xml",
}


def crate(payload: Path, edition: Edition, summary: Summary, inputs: Inputs) -> Entity:
    """ro-crate-metadata.json of a payload folder that is otherwise complete."""
    paths = sorted(p.relative_to(payload).as_posix() for p in payload.rglob("*") if p.is_file())
    files = [_file(payload, path) for path in paths if path != ITSELF]
    used = [_input(item, edition, number) for number, item in enumerate(inputs.files, 1)]
    graph = [
        {
            "@id": ITSELF,
            "@type": "CreativeWork",
            "about": {"@id": "./"},
            "conformsTo": {"@id": VERSION},
        },
        _root(edition, summary, files),
        *files,
        *(entity for entity in used if entity["@id"].startswith("#")),
        _action(edition, used, [*BRIEF, *(CHECK if summary.checked else [])]),
        *_software(edition),
        *_sources(edition),
        {"@id": "#publisher", "@type": "Organization", "name": edition.publisher},
    ]
    return {"@context": CONTEXT, "@graph": graph}


def _root(edition: Edition, summary: Summary, files: list[Entity]) -> Entity:
    return {
        "@id": "./",
        "@type": "Dataset",
        "name": f"{edition.title} (edition {edition.edition})",
        "description": summary.question,
        "abstract": " ".join(summary.answer),
        "identifier": edition.name,
        "version": str(edition.edition),
        "datePublished": edition.date.isoformat(),
        "publisher": {"@id": "#publisher"},
        "license": {"@id": "#licence"},
        "isBasedOn": _one([{"@id": f"#source-{source.id}"} for source in edition.sources]),
        "mentions": {"@id": "#making"},
        "hasPart": [{"@id": file["@id"]} for file in files],
    }


def _file(payload: Path, path: str) -> Entity:
    size, sums = digests(payload / path)
    return {
        "@id": quote(path),
        "@type": "File",
        "name": capitalised(WHAT[path]) if path in WHAT else path,
        "encodingFormat": _format(path),
        "contentSize": str(size),
        "sha256": sums["sha256"],
    }


def _format(path: str) -> str:
    known = TYPES.get(Path(path).suffix.lower())
    return known or mimetypes.guess_type(path, strict=True)[0] or "application/octet-stream"


def _input(item: Input, edition: Edition, number: int) -> Entity:
    """A raw input: the file that is kept, or a description of one that is not."""
    if item.stored:
        return {"@id": quote(item.stored)}
    known = {source.id for source in edition.sources}
    part = {"isPartOf": {"@id": f"#source-{item.of}"}} if item.of in known else {}
    return {
        "@id": f"#input-{number}",
        "@type": "File",
        "name": item.path,
        "description": f"{item.kind} that is not in this folder",
        "encodingFormat": _format(item.path),
        "contentSize": str(item.bytes),
        "sha256": item.sha256,
        **part,
    }


def _action(edition: Edition, used: list[Entity], made: list[str]) -> Entity:
    """How the brief came about; its end is the edition's date, since the clock is not asked."""
    return {
        "@id": "#making",
        "@type": "CreateAction",
        "name": "Making the brief",
        "description": edition.rebuild,
        "endTime": edition.date.isoformat(),
        "agent": {"@id": "#publisher"},
        "instrument": {"@id": "#good-length"},
        "object": _one([{"@id": entity["@id"]} for entity in used]),
        "result": [{"@id": name} for name in made],
    }


def _software(edition: Edition) -> list[Entity]:
    """Good Length at its version and commit, and the libraries that it ran on."""
    versions, commit = edition.software, edition.commit
    own = versions["good-length"] or "unknown"
    if commit:
        changed = " with changes" if commit.with_changes_that_are_not_committed else ""
        own += f" (commit {commit.id}{changed})"
    libraries = [name for name in versions if name != "good-length" and versions[name]]
    application = {"@type": "SoftwareApplication"}
    return [
        {
            "@id": "#good-length",
            **application,
            "name": "Good Length",
            "version": own,
            "identifier": edition.code,
            "softwareRequirements": [{"@id": f"#software-{name}"} for name in libraries],
        },
        *(
            {"@id": f"#software-{name}", **application, "name": name, "version": versions[name]}
            for name in libraries
        ),
    ]


def _sources(edition: Edition) -> list[Entity]:
    """Whose data they are: each source, its publisher, its licence; and all licences together."""
    told = "; ".join(f"{source.title}: {source.licence}" for source in edition.sources)
    description = f"{told}. Rights to footage are another matter: see README.md"
    name = "Licences of the data that the edition rests on"
    return [
        *(entity for source in edition.sources for entity in _source(source)),
        {"@id": "#licence", "@type": "CreativeWork", "name": name, "description": description},
    ]


def _source(source: Credit) -> list[Entity]:
    return [
        {
            "@id": f"#source-{source.id}",
            "@type": "Dataset",
            "name": source.title,
            "creditText": source.credit,
            "license": {"@id": f"#licence-{source.id}"},
            "publisher": {"@id": f"#publisher-{source.id}"},
            **({"url": source.url} if source.url else {}),
        },
        {"@id": f"#publisher-{source.id}", "@type": "Organization", "name": source.publisher},
        {
            "@id": f"#licence-{source.id}",
            "@type": "CreativeWork",
            "name": source.licence,
            "description": f"Licence of {source.title}, as {source.publisher} names it",
        },
    ]


def _one(values: list[Entity]) -> Entity | list[Entity]:
    """A single value stands alone, as JSON-LD in compacted form has it."""
    return values[0] if len(values) == 1 else values
