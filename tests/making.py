"""Make a topic's brief on the built demo's data without the workflow, in this process."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

from pipeline.brief.stage import write_brief
from pipeline.config import views
from pipeline.config.load import load
from pipeline.run import make_stage


def brief_made(built: Path, folder: Path, name: str, text: str, **project: str) -> Path:
    """The topic's folder with everything made of `text` but the frames for the video.

    `project` sets keys of project.yaml.
    """
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
    out, data = folder / "output" / name, built / "output" / "data"
    undrawn = views.charts(read, name).model_copy(update={"frames": []})
    for view in (views.metrics(read, name), views.significance(read, name), undrawn):
        make_stage(view, out, data)
    write_brief(views.brief(read, name), out)
    return out
