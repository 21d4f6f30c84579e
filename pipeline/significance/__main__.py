"""python -m pipeline.significance --topic NAME --out FOLDER: tallies into findings.json."""

from __future__ import annotations

from pipeline.config import views
from pipeline.errors import run_stage
from pipeline.significance.stage import write_findings
from pipeline.topic_command import topic_call


def main() -> None:
    with topic_call("significance", __doc__, views.significance) as call:
        write_findings(call.view, call.out)


if __name__ == "__main__":
    run_stage(main)
