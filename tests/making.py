"""Make a topic's brief on the built demo's data without the workflow, in this process."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

from pipeline.config.load import load
from pipeline.run import make_topic


def brief_made(built: Path, folder: Path, name: str, text: str, **project: str) -> Path:
    """The topic's folder with everything made of `text`; `project` sets keys of project.yaml."""
    config = folder / "config"
    if not config.exists():
        shutil.copytree(built / "config", config)
    (config / "topics" / f"{name}.yaml").write_text(text, "utf-8")
    settings = config / "project.yaml"
    kept = settings.read_text("utf-8")
    more = "".join(f"{key}: {value}\n" for key, value in project.items())
    try:
        settings.write_text(kept + more, "utf-8")
        read: Any = load(config, only=name)
    finally:
        settings.write_text(kept, "utf-8")
    out = folder / "output" / name
    make_topic(read, name, out, built / "output" / "data")
    return out
