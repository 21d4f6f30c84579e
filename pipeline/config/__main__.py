"""python -m pipeline.config: write, from the models, JSON Schemas for editors and tables for people
(config/README.md)."""

from __future__ import annotations

from pipeline.config.load import DEFAULT
from pipeline.config.schemas import write_schemas

if __name__ == "__main__":
    write_schemas(DEFAULT)
