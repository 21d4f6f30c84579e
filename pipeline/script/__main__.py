"""python -m pipeline.script --topic NAME --out FOLDER: scripts and captions against the facts."""

from __future__ import annotations

from pipeline.config import views
from pipeline.errors import run_stage
from pipeline.script.stage import write_check
from pipeline.topic_command import topic_call


def main() -> None:
    with topic_call("script", __doc__, views.brief) as call:
        write_check(call.view, call.out)


if __name__ == "__main__":
    run_stage(main)
