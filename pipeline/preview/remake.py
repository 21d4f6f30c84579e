"""Make of a topic what its configuration has changed, and nothing else, without a new process."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path

from pipeline.brief.stage import brief_of
from pipeline.config import views
from pipeline.config.load import Config
from pipeline.config.views import BriefView, ChartsView, MetricsView, SignificanceView
from pipeline.errors import write_atomically
from pipeline.hashes import content_hash, file_hash, value_hash
from pipeline.kept_script import said_files
from pipeline.ledger.book import ledger_of
from pipeline.run import make_stage
from pipeline.script.stage import write_check
from pipeline.tables import played
from pipeline.voice.anew import read_anew
from pipeline.voice.forms import voice_file

StageView = MetricsView | SignificanceView | ChartsView | BriefView


def saved(paths: Iterable[Path]) -> dict[str, tuple[int, int]]:
    """When files were written, and their sizes; one that goes away meanwhile is left out."""
    found = {}
    for path in paths:
        with suppress(FileNotFoundError):
            status = path.stat()
            found[str(path)] = (status.st_mtime_ns, status.st_size)
    return found


class Remake:
    """A topic's outputs in a folder of their own, kept up with its configuration."""

    def __init__(self, topic: str, out: Path, data: Path, archive: Path) -> None:
        self.topic, self.out, self.data, self.archive = topic, out, data, archive
        self.hashes: dict[str, str] = {}

    def update(self, config: Config) -> list[str]:
        """Run the first stage of which something has changed, and all after it; those that ran.

        What a stage that fails would have fed is forgotten, so that it is made again later.
        """
        seen = _views(config, self.topic)
        hashes = {
            stage: value_hash([view, list(self._beside(stage, config))])
            for stage, view in seen.items()
        }
        stages = list(seen)
        changed = [stage for stage in stages if self.hashes.get(stage) != hashes[stage]]
        ran = stages[stages.index(changed[0]) :] if changed else []
        for stage in ran:
            self.hashes.pop(stage, None)
        for stage in ran:
            self._run(stage, seen[stage])
            self.hashes[stage] = hashes[stage]
        return ran

    def tables(self) -> dict[str, tuple[int, int]]:
        """When the clean tables were written, and their sizes; a build may replace them."""
        paths = [*map(Path, played(self.data).values()), self.data / "corrections.json"]
        return saved(path for path in paths if path.is_file())

    def _beside(self, stage: str, config: Config) -> Iterator[object]:
        """What a stage reads beside its view, as the workflow knows it too."""
        if stage == "metrics":
            yield self.tables()
        elif stage == "significance":
            yield content_hash(ledger_of(config.folder, self.topic))
        elif stage == "charts" and config.theme:
            yield content_hash(config.theme.logo)  # fonts are read once in a process
        elif stage in ("script", "brief"):
            yield [content_hash(path) for path in said_files(config.topic_file(self.topic))]
            yield content_hash(voice_file())
            yield [file_hash(path) for path in sorted(self.archive.glob("*/*/data/edition.json"))]

    def _run(self, stage: str, view: StageView) -> None:
        if isinstance(view, BriefView):
            read_anew()
        if stage == "script" and isinstance(view, BriefView):
            write_check(view, self.out, self.archive)
        elif isinstance(view, BriefView):
            made = brief_of(view, self.out, None, self.archive, paper=False)
            write_atomically(self.out / "brief.html", made.files["brief.html"])
        else:
            make_stage(view, self.out, self.data)


def _views(config: Config, topic: str) -> dict[str, StageView]:
    """What each stage sees; of the frames the light ones only, since a page shows no others.

    A topic without a script and without captions has nothing to check.
    """
    light = {"frames": ["light"]}
    brief = views.brief(config, topic)
    return {
        "metrics": views.metrics(config, topic),
        "significance": views.significance(config, topic),
        "charts": views.charts(config, topic).model_copy(update=light),
        **({"script": brief} if said_files(config.topic_file(topic)) else {}),
        "brief": brief,
    }
