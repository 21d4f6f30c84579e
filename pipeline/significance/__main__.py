"""python -m pipeline.significance --topic NAME --out FOLDER: tallies into findings.json."""

from __future__ import annotations

from pipeline.config import views
from pipeline.config.placed import placed
from pipeline.errors import run_stage
from pipeline.significance.stage import write_findings
from pipeline.topic_command import topic_call


def main() -> None:
    call = topic_call("significance", __doc__, views.significance)
    with placed():
        write_findings(call.view, call.out)


if __name__ == "__main__":
    run_stage(main)
