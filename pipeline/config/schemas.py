"""JSON Schemas for editors and tables for people (config/README.md), from the models."""

from __future__ import annotations

import json
from pathlib import Path

from pydantic import BaseModel

from pipeline.config.glossary import Glossary
from pipeline.config.project import FormatFile, MeasureFile, Project, Sources
from pipeline.config.settings import page
from pipeline.config.theme import Theme
from pipeline.config.topic import Topic
from pipeline.config.topic_schema import topic_schema
from pipeline.errors import write_atomically

SCHEMAS: dict[str, type[BaseModel]] = {
    "topic": Topic,
    "project": Project,
    "sources": Sources,
    "measures": MeasureFile,
    "formats": FormatFile,
    "theme": Theme,
    "glossary": Glossary,
}


def schema(name: str) -> str:
    """One file's JSON Schema (2020-12) as text."""
    dialect = {"$schema": "https://json-schema.org/draft/2020-12/schema"}
    own = topic_schema() if name == "topic" else SCHEMAS[name].model_json_schema(mode="validation")
    made = {**dialect, **own}
    return json.dumps(made, indent=1, ensure_ascii=False) + "\n"


def write_schemas(folder: Path) -> None:
    """Every schema, and the tables, in the configuration's folder."""
    for name in SCHEMAS:
        write_atomically(folder / "schema" / f"{name}.json", schema(name))
    write_atomically(folder / "README.md", page())
