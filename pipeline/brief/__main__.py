"""python -m pipeline.brief --topic NAME --out FOLDER: findings and charts into the brief."""

from __future__ import annotations

from pipeline.brief.stage import write_brief
from pipeline.config import views
from pipeline.errors import run_stage
from pipeline.topic_command import topic_call


def main() -> None:
    with topic_call("brief", __doc__, views.brief) as call:
        write_brief(call.view, call.out)


if __name__ == "__main__":
    run_stage(main)
