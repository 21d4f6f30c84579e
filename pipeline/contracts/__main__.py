"""python -m pipeline.contracts: write the JSON Schemas of the files that the stages write."""

from __future__ import annotations

from pathlib import Path

from pipeline.contracts.json_schemas import write_schemas

if __name__ == "__main__":
    write_schemas(Path("config/schema/outputs"))
