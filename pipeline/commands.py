"""Where each command that is run by hand is; only the one that is asked for is imported."""

from __future__ import annotations

from importlib import import_module

from pipeline.config.placed import placed
from pipeline.errors import Problem, UserError, did_you_mean

COMMANDS = {
    "build": "pipeline.build.command",
    "look": "pipeline.look.command",
    "fetch": "pipeline.fetch.command",
    "topic": "pipeline.new_topic.command",
    "preview": "pipeline.preview.command",
    "doctor": "pipeline.doctor.command",
    "explain": "pipeline.explain.command",
    "verify": "pipeline.verify.command",
    "compare": "pipeline.compare.command",
    "rebuild": "pipeline.rebuild.command",
    "correction": "pipeline.errata.command",
    "grounds": "pipeline.grounds.command",
    "script": "pipeline.script.command",
    "script-check": "pipeline.script.check_command",
    "convert": "pipeline.convert.command",
}


def run(name: str, words: list[str]) -> None:
    """Run a command with what was typed after its name. Raises UserError for a name of none."""
    if name not in COMMANDS:
        message = f"no command '{name}'{did_you_mean(name, COMMANDS)}"
        raise UserError(Problem("python -m pipeline", message))
    with placed():
        getattr(import_module(COMMANDS[name]), name.replace("-", "_"))(words)
