"""The steps of the workflow: what each is made from, what it reads and what it writes.

The workflow's rules, the check of what is up to date, and the archive take them from here alike.
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from pipeline.config import views
from pipeline.config.load import Config
from pipeline.hashes import content_hash, value_hash
from pipeline.kept_script import kept_of, said_files
from pipeline.provenance import code_hash, stage_hash
from pipeline.records.outputs import Files

Input = Path | str | None
FONTS = "templates/fonts-screen.css"


class Step(NamedTuple):
    """A job of the workflow; `name` is its source or topic, empty where there is but one.

    `seen` is a hash of code, settings and raw inputs, `view` of the settings alone; `reads` and
    `writes` are outputs of ours. `ledger` is the file whose lines are judged by what was counted of
    them, not by its bytes: a build adds its own when all is made.
    """

    stage: str
    name: str
    seen: str
    view: str
    reads: list[str]
    writes: list[str]
    record: str
    ledger: str | None = None

    @property
    def title(self) -> str:
        """'charts of sea-air', or 'clean'."""
        return f"{self.stage} of {self.name}" if self.name else self.stage


class Steps:
    """Every step of a configuration whose outputs are in the folder `out`.

    Without `seen` nothing but outputs can be judged; raw files aren't read then, which takes long.
    """

    def __init__(
        self, config: Config, out: Path | str, data: Path | None = None, *, seen: bool = True
    ):
        self.config, self.seen = config, seen
        self.files = Files(config, Path(out), data)

    def all(self) -> list[Step]:
        """Each after those whose outputs it reads; the shelf is the last."""
        topics = [step for name in self.config.topics for step in self.topic(name)]
        return [*self.data(), *topics, self.shelf()]

    def data(self) -> list[Step]:
        """What every topic rests on."""
        return [*(self.ingest(source) for source in self.config.sources), self.clean()]

    def topic(self, name: str) -> list[Step]:
        """Of one topic, beside those of the data."""
        said = [self.script(name)] if self.files.is_said(name) else []
        numbers = [self.metrics(name), self.significance(name), self.charts(name)]
        return [*numbers, *said, self.brief(name)]

    def ingest(self, source: str) -> Step:
        view = views.ingest(self.config, source)
        return self._step("ingest", source, view, self.config.sources[source].path)

    def clean(self) -> Step:
        project = self.config.project
        sheets = (project.players, project.grounds, project.people, project.corrections)
        page = ("templates/quality.html.jinja", "templates/quality.css")
        return self._step("clean", "", views.clean(self.config), *sheets, *page)

    def metrics(self, name: str) -> Step:
        return self._step("metrics", name, views.metrics(self.config, name))

    def significance(self, name: str) -> Step:
        view = views.significance(self.config, name)
        return self._step("significance", name, view)._replace(ledger=view.ledger)

    def charts(self, name: str) -> Step:
        theme = self.config.theme
        brand = [*theme.fonts.model_dump().values(), theme.logo] if theme else []
        return self._step("charts", name, views.charts(self.config, name), *brand)

    def script(self, name: str) -> Step:
        """Only of a topic that has a script or captions."""
        files = said_files(self.config.topic_file(name))
        pages = [f"templates/script-check.{kind}" for kind in ("html.jinja", "css", "js")]
        earlier = self.files.earlier(name)
        return self._step(
            "script", name, views.brief(self.config, name), *files, *pages, FONTS, *earlier
        )

    def brief(self, name: str) -> Step:
        earlier = self.files.earlier(name)
        code = code_hash() if earlier and self.seen else None
        beside = ("templates", kept_of(self.config.topic_file(name)))
        return self._step(
            "brief", name, views.brief(self.config, name), *beside, *earlier, more=code
        )

    def shelf(self) -> Step:
        pages = ("templates/shelf.html.jinja", "templates/shelf.css")
        archived = self.files.archived("summary.json", ["*"])
        return self._step("shelf", "", views.shelf(self.config), *pages, *archived)

    def _step(
        self, stage: str, name: str, view: object, *inputs: Input, more: str | None = None
    ) -> Step:
        files, asked, seen = self.files, value_hash(view), ""
        if self.seen:
            contents = [content_hash(file) for file in inputs]
            seen = value_hash([stage_hash(stage), asked, more, contents])
        return Step(stage, name, seen, asked, *files.of(stage, name), files.record(stage, name))
