"""python -m pipeline.charts --topic NAME --out FOLDER: every chart of a topic, in one process."""

from __future__ import annotations

from pipeline.charts.stage import write_charts
from pipeline.config import views
from pipeline.errors import run_stage
from pipeline.topic_command import topic_call


def main() -> None:
    with topic_call("charts", __doc__, views.charts) as call:
        write_charts(call.view, call.out)


if __name__ == "__main__":
    run_stage(main)
