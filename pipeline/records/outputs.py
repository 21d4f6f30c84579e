"""Which outputs each stage reads and writes, and where its record stands."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from pipeline.batches import LIST
from pipeline.config.frame_files import SHEET, chart_files, panel_charts
from pipeline.config.load import Config
from pipeline.config.topic_ids import finding_id
from pipeline.kept_script import said_files
from pipeline.records.places import record_of
from pipeline.tables import PLAYED
from pipeline.topic_files import STATE, written_by

# The list of batches stands for all files of them.
RAW = [LIST, "people.parquet", "report.json"]
QUALITY = "quality.html"
CLEAN = [
    *[f"{name}.parquet" for name in (*PLAYED, "innings")],
    *["players-to-fill.csv", "grounds-to-fill.csv"],
    *["corrections.json", "quality.json", QUALITY],
]


class Files:
    """Names of outputs as paths from where the workflow runs; `name` is a source or a topic."""

    def __init__(self, config: Config, out: Path, data: Path | None = None):
        self.config, self.out, self.data = config, out, data or out / "data"

    def written_by(self, stage: str, name: str) -> list[str]:
        match stage:
            case "ingest":
                return _in(self.data / name, RAW)
            case "clean":
                return _in(self.data, CLEAN)
            case "charts":
                return _in(self.out / name / "charts", self._charts(name))
            case "shelf":
                return [str(self.out / "index.html")]
        return _in(self.out / name, written_by(stage))

    def read_by(self, stage: str, name: str) -> list[str]:
        """Outputs of earlier stages that this one reads."""
        match stage:
            case "ingest":
                return []
            case "clean":
                folders = [self.data / source for source in self.config.sources]
                return [path for folder in folders for path in _in(folder, RAW)]
            case "metrics":
                tables = [f"{table}.parquet" for table in PLAYED]
                return _in(self.data, [*tables, "corrections.json"])
            case "significance":
                return self.written_by("metrics", name)
            case "charts":
                return self.written_by("significance", name)
            case "script":
                charts = self.out / name / "charts" / "charts.json"
                return [*self.written_by("significance", name), str(charts)]
            case "brief":
                state = _in(self.out / name, [STATE] if self.is_said(name) else [])
                made = (self.written_by(stage, name) for stage in ("significance", "charts"))
                return [*(path for paths in made for path in paths), *state]
        return [str(self.out / topic / "summary.json") for topic in self.config.topics]

    def is_said(self, topic: str) -> bool:
        """Whether a script or captions stand beside the topic's file, to be checked."""
        return bool(said_files(self.config.topic_file(topic)))

    def of(self, stage: str, name: str) -> tuple[list[str], list[str]]:
        """What a stage reads, and what it writes."""
        return self.read_by(stage, name), self.written_by(stage, name)

    def record(self, stage: str, name: str) -> str:
        of_data = {"ingest": self.data / name, "clean": self.data, "shelf": self.out}
        return str(record_of(stage, of_data.get(stage, self.out / name)))

    def _charts(self, topic: str) -> list[str]:
        """Charts of a topic are known only from its beats."""
        asked = self.config.topics[topic]
        made = [
            name
            for beat in asked.beats
            for measure in beat.measures
            for name in chart_files(f"{beat.id}.{measure}", list(asked.frames), beat.hides_when)
        ]
        headlines = [finding_id(asked, name) for name in asked.headlines]
        for panel in panel_charts(asked.beats, headlines).values():
            made += chart_files(panel, list(asked.frames), blind=False)
        return [*made, "charts.json", SHEET]

    def archived(self, name: str, topics: Iterable[str]) -> list[str]:
        """A file of every archived edition of these topics; editions are never written again."""
        folder = self.out / "archive"
        return [
            str(path)
            for topic in topics
            for path in sorted(folder.glob(f"{topic}/[0-9]*/data/{name}"))
        ]

    def earlier(self, topic: str) -> list[str]:
        """What a brief takes from the archive: its own editions, and those that it cites."""
        cited = {item.fact.partition("/")[0] for item in self.config.topics[topic].see_also}
        return self.archived("edition.json", sorted({topic, *cited}))


def _in(folder: Path, names: Iterable[str]) -> list[str]:
    return [str(folder / name) for name in names]
