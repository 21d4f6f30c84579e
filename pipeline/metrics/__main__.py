"""python -m pipeline.metrics --topic NAME --data FOLDER --out FOLDER: a topic's tallies."""

from __future__ import annotations

from pipeline.config import views
from pipeline.errors import run_stage
from pipeline.metrics.stage import write_tallies
from pipeline.topic_command import topic_call


def main() -> None:
    with topic_call("metrics", __doc__, views.metrics) as call:
        write_tallies(call.view, call.out, call.data)


if __name__ == "__main__":
    run_stage(main)
