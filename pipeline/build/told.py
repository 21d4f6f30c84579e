"""What the workflow engine says when it fails, in a line each, with what to do.

A stage tells a user's mistakes itself. What the engine adds (a lock that was left, a stage ended
from outside, an output that is missing) would be lost when it is told to be quiet.
"""

from __future__ import annotations

import logging
import re

from pipeline.terminal import say_aside

UNLOCK = "make unlock"
LOCKED = (
    "another build works in this folder, or one was ended before it could tidy up: when none "
    f"is running, type {UNLOCK} and then the same command again"
)
ENDED = (
    "was ended from outside ({signal}); nothing is half written. If nobody stopped it, the memory "
    "was full: close other programs, or let fewer stages run at once (make brief CORES=1)"
)
_SIGNAL = re.compile(r"died with <Signals\.(\w+)|exit status (1[3-9]\d)\b")
_SAID_BY_STAGE = re.compile(r"non-zero exit status [12]\b")
FAILED, LOCK = "RuleException", "LockException"
SUMMARY = "At least one job did not complete successfully"


class Told(logging.Handler):
    """A handler of the engine's log: prints what a user must know to standard error."""

    def __init__(self) -> None:
        super().__init__(logging.ERROR)
        self._why: str | None = None

    def emit(self, record: logging.LogRecord) -> None:
        exception = getattr(record, "exception", None)
        if hasattr(record, "rule_name"):
            self._end_of_job(record)
        elif exception == FAILED:
            self._why = self._why or record.getMessage()
        elif exception == LOCK:
            say_aside(LOCKED)
        elif exception and SUMMARY not in record.getMessage():
            say_aside(record.getMessage())

    def _end_of_job(self, record: logging.LogRecord) -> None:
        """The job's own line follows the exception's."""
        why, self._why = self._why or "", None
        if _SAID_BY_STAGE.search(why):
            return
        name = title(str(getattr(record, "rule_name", "")), getattr(record, "output", []))
        signal = signal_of(why)
        say_aside(f"{name} {ENDED.format(signal=signal)}" if signal else f"{name}: {why}")


def signal_of(why: str) -> str | None:
    """'SIGKILL' of an engine's message; a shell says 137 for it, 128 and the signal's number."""
    import signal  # seldom needed

    found = _SIGNAL.search(why)
    if not found:
        return None
    return found[1] or signal.Signals(int(found[2]) - 128).name


def title(rule: str, outputs: object) -> str:
    """'brief (output/sea-air/brief.pdf ...)': the stage that was at work, and on what."""
    first = str(next(iter(outputs), "")) if isinstance(outputs, (list, tuple)) else ""
    return f"{rule} ({first.split(' ')[0]} ...)" if first else rule
