"""python -m pipeline preview TOPIC: its page at an address of this machine, anew at every save.

Works on the clean tables as they are: data and corrections need make brief; other fonts need a new
start. The PDF and frames other than the light ones are not made.
"""

from __future__ import annotations

import argparse
import time
from pathlib import Path

from pipeline.config.load import DEFAULT, load, load_project
from pipeline.config.placed import placed
from pipeline.config.topic_names import FOLDER, topic_names
from pipeline.errors import Problem, UserError, did_you_mean, told
from pipeline.preview.remake import Remake, saved
from pipeline.preview.serve import Site
from pipeline.records.whole import check_data
from pipeline.tables import played
from pipeline.terminal import say
from pipeline.voice.forms import voice_file

SAVED = (".yaml", ".csv", ".md", ".txt", ".vtt", ".srt")
LOOK = 0.1  # seconds between two looks at the configuration's files


def preview(words: list[str]) -> None:
    """Make the page, serve it, and make it again whenever a configuration file is saved."""
    parser = argparse.ArgumentParser(
        prog="python -m pipeline preview",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("topic")
    parser.add_argument("--config", type=Path, default=DEFAULT)
    parser.add_argument("--output", type=Path, default=Path("output"))
    parser.add_argument("--port", type=int, default=8377, help="0 takes any that is free")
    parser.add_argument("--once", action="store_true", help="make the page and stop")
    options = parser.parse_args(words)
    data = options.output / "data"
    _check(options.config, options.topic, data)
    out = options.output / "preview" / options.topic
    remake = Remake(options.topic, out, data, options.output / "archive")
    page = out / "brief.html"
    if options.once:
        say(_made(remake, options.config, str(page)))
        return
    site = _site(page, options.port)
    try:
        _watch(remake, options.config, site)
    except KeyboardInterrupt:
        say("")
    finally:
        site.close()


def _check(config: Path, topic: str, data: Path) -> None:
    """The topic has a file, since its name is that of a folder; what it is made of is there."""
    there = topic_names(config / FOLDER)
    if topic not in there:
        message = f"no topic '{topic}'{did_you_mean(topic, there)}"
        raise UserError(Problem(str(config / FOLDER), message))
    missing = [str(path) for path in map(Path, played(data).values()) if not path.is_file()]
    if missing:
        message = f"not there yet; run make brief once, then preview {topic}"
        raise UserError(Problem(path, message) for path in missing)
    check_data(load_project(config), data.parent)


def _site(page: Path, port: int) -> Site:
    try:
        return Site(page, port)
    except OSError as error:
        message = f"{error.strerror}; choose another with --port (0: any that is free)"
        raise UserError(Problem(f"port {port}", message)) from None


def _watch(remake: Remake, config: Path, site: Site) -> None:
    """Look at the files, make what changed, say how long it took; a mistake leaves the old page."""
    say(f"{remake.topic}: {site.address} (end with Ctrl+C)")
    before = None
    while True:
        now = {**_saved(config), **remake.tables()}
        if now != before:
            before = now
            try:
                lines = [_made(remake, config, site.address)]
                site.changed()
            except UserError as error:
                lines = [*told(error), "the page is as it was; mend this and save again"]
            except OSError as error:
                lines = [f"{error.filename}: {error.strerror}; the page is as it was"]
            say(*lines)
        time.sleep(LOOK)


def _made(remake: Remake, config: Path, where: str) -> str:
    """'long-grass: new page in 0.4 s (brief): where'."""
    begun = time.perf_counter()
    with placed():
        ran = remake.update(load(config, only=remake.topic))
    if not ran:
        return f"{remake.topic}: nothing in the page has changed"
    taken = time.perf_counter() - begun
    return f"{remake.topic}: new page in {taken:.1f} s ({', '.join(ran)}): {where}"


def _saved(config: Path) -> dict[str, tuple[int, int]]:
    """The configuration's files, and the voice's."""
    files = (path for path in sorted(config.rglob("*")) if path.suffix in SAVED)
    return saved([*files, voice_file()])
