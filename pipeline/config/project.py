"""What a project declares once: its sources, measures, formats and the rules of its statistics."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import Field, field_validator, model_validator

from pipeline.config.fields import Line, OverRange, Slug, Strict, Whole
from pipeline.config.measure import Measure
from pipeline.config.sums import OF_KINDS, parse_sum
from pipeline.config.written import TODO, EnvironmentName, Query, Written
from pipeline.date_forms import ISO, check_form
from pipeline.open_layouts.match_types import in_words


class Source(Strict):
    """One set of match files: where it is, how it is laid out, whose it is."""

    id: Slug = Field(description="short name, used in folder names")
    path: str = Field(
        description="zip, folder, CSV, Parquet or database file, relative to the project"
    )
    layout: Literal["ball-tables", "match-json", "delivery-csv", "table"] = Field(
        description="our own tables (BALL-TABLES.md); a JSON file a match; a CSV row a delivery; "
        "any table, with 'columns'"
    )
    title: Line = Field(description="name of the data, as the sources of a brief list it")
    publisher: Line = Field(description="whose data they are")
    licence: Line = Field(description="licence of the data, as its publisher names it")
    url: str | None = Field(None, description="where the data are from, printed with the sources")
    retrieved: date = Field(description="when they were fetched; the newest one dates the PDF")
    credit: Line | None = Field(None, description="on-screen credit line; the title when absent")
    notice: Line | None = Field(None, description="printed on every chart and brief of these data")
    on_error: Literal["stop", "quarantine"] = Field(
        "stop", description="at a bad file: list all and write nothing, or count it and go on"
    )
    columns: dict[str, str] | None = Field(
        None, description="for layout 'table': our column name -> the file's column name"
    )
    date_format: str = Field(
        ISO,
        description="for row layouts: how dates are written, such as DD/MM/YYYY or 'DD MMM YYYY'",
    )
    written: Written = Field(
        Written(), description="for layout 'table': how its cells are written, where not as ours"
    )
    query: Query | None = Field(
        None,
        description="for layout 'table': a SELECT with ORDER BY; FROM data asks a CSV or Parquet",
    )
    connection_from: EnvironmentName | None = Field(
        None,
        description="environment variable that holds a PostgreSQL server's connection; 'path' is "
        "then the Parquet file that `python -m pipeline fetch` writes",
    )
    constants: dict[str, str] = Field(
        default_factory=dict,
        description="for CSV layouts: values the file leaves out, such as match_type or gender",
    )

    @field_validator("date_format")
    @classmethod
    def _a_form_of_dates(cls, form: str) -> str:
        check_form(form)
        return form

    @model_validator(mode="after")
    def _columns_go_with_table(self) -> Source:
        if (self.layout == "table") != (self.columns is not None):
            raise ValueError("'columns' goes with layout 'table', and only with it")
        for key, given in (("constants", self.constants), ("date_format", self.date_format != ISO)):
            if self.layout == "ball-tables" and given:
                raise ValueError(f"'{key}' does not go with layout 'ball-tables'")
        for key in ("written", "query", "connection_from"):
            if self.layout != "table" and getattr(self, key) not in (None, Written()):
                raise ValueError(f"'{key}' goes with layout 'table', and only with it")
        return self

    @model_validator(mode="after")
    def _a_server_is_asked_and_kept(self) -> Source:
        if self.connection_from and not (self.query and self.path.endswith(".parquet")):
            raise ValueError(
                "'connection_from' needs a 'query', and a 'path' that ends in .parquet, where "
                "the rows are kept"
            )
        return self

    @model_validator(mode="after")
    def _season_is_said_once(self) -> Source:
        if self.written.season and "season" in {**self.constants, **(self.columns or {})}:
            raise ValueError("the season is in 'columns' or 'constants' and in 'written'; keep one")
        return self

    @model_validator(mode="after")
    def _is_decided(self) -> Source:
        given = {"title": self.title, "publisher": self.publisher, "licence": self.licence}
        given |= {f"constants: {name}": value for name, value in self.constants.items()}
        given |= {
            f"written: values: {name}: {theirs}": ours
            for name, words in self.written.values.items()
            for theirs, ours in words.items()
        }
        if waiting := [name for name, value in given.items() if value.startswith(TODO)]:
            raise ValueError(f"still {TODO}: {', '.join(waiting)}; write what it is")
        return self

    @property
    def credit_line(self) -> str:
        return self.credit or f"Data: {self.title}, {self.publisher}"


class Sources(Strict):
    sources: list[Source] = Field(min_length=1, description="every set of match files, in order")


Said = dict[str, Line]


class Phase(Strict):
    overs: OverRange = Field(description="first and last over, both in it; the first over is 1")
    label: Line = Field(description="as printed: 'overs 11–40'")
    said: Line | None = Field(None, description="in a sentence: 'in the middle overs'")


class Format(Strict):
    """A form of the game: which match types it covers, its overs, its phases."""

    label: Line = Field(description="as printed: '50-over matches'")
    match_types: list[str] = Field(
        min_length=1, description="in the words of BALL-TABLES.md, such as one-day and twenty-over"
    )
    overs: Whole | None = Field(
        None, ge=1, le=999, description="overs an innings; none: not limited"
    )
    balls_per_over: Whole = Field(6, ge=4, le=10, description="valid balls an over")
    phases: dict[Slug, Phase] = Field(
        default_factory=dict, description="parts of the innings, by the name that topics use"
    )
    said: Said = Field(
        {}, description="tags of players as they are said: 'opener: the openers'; topics may add"
    )

    @field_validator("match_types")
    @classmethod
    def _in_our_words(cls, given: list[str]) -> list[str]:
        """A file that was written for the codes of a layout goes on."""
        return list(dict.fromkeys(map(in_words, given)))


class Statistics(Strict):
    """Fixed before looking: error rates and the bars under which no number is given."""

    alpha: float = Field(0.05, gt=0, lt=0.5, description="headlines, after Holm")
    table_rate: float = Field(0.10, gt=0, lt=0.5, description="tables, Benjamini-Hochberg")
    least_matches: Whole = Field(6, ge=3, le=99_999, description="under this: no interval")
    few_matches: Whole = Field(20, ge=3, le=99_999, description="under this: a caution")
    permutations: Whole = Field(999, ge=99, le=9999, description="of the robustness check")
    count_earlier_looks: bool = Field(
        True, description="headlines of earlier builds count with today's, from the topic's ledger"
    )


class Archive(Strict):
    """What an archived edition keeps beside the brief."""

    include_data: bool = Field(
        False,
        description="keep the match files in every edition; the licence of the data must allow it",
    )


class Project(Strict):
    """The project file: names, where things are, and the statistics' fixed points."""

    title: Line = Field(description="who publishes: printed in the foot of each page")
    language: Literal["en-GB"] = Field("en-GB", description="language of the lines")
    paper: Literal["A4", "Letter"] = Field("A4", description="size of the PDF's pages")
    topics: list[Slug] | Literal["all"] = Field(
        "all", description="topics to build, by the names of their files"
    )
    players: str | None = Field(
        None, description="CSV: id, name, batting_hand, bowling_style, tags"
    )
    grounds: str | None = Field(
        None,
        description="CSV: venue, ground, city, country, region (and venue_city, home, source, "
        "if need be)",
    )
    people: str | None = Field(
        None, description="CSV of ids that are one person: id, same_as, reason, source"
    )
    corrections: str | None = Field(
        None,
        description="CSV: match, innings, over, delivery, field, old, new, reason, source, by, "
        "date (and player, venue, player_out, for fixes of those); see below",
    )
    statistics: Statistics = Field(
        Statistics(), description="error rates and bars, fixed before looking at any number"
    )
    archive: Archive = Field(
        Archive(), description="what an archived edition keeps beside the brief"
    )


Measures = Annotated[dict[Slug, Measure], Field(min_length=1)]
Formats = Annotated[dict[Slug, Format], Field(min_length=1)]


class MeasureFile(Strict):
    measures: Measures = Field(description="every measure, by the name that beats use")

    @field_validator("measures")
    @classmethod
    def _of_the_balls(cls, measures: dict[str, Measure]) -> dict[str, Measure]:
        for name, measure in measures.items():
            for part in (measure.numerator, measure.denominator):
                own = OF_KINDS.intersection(column for _, column in parse_sum(part))
                if own:
                    raise ValueError(
                        f"'{name}' sums {', '.join(sorted(own))}, which only a streaks beat counts"
                    )
        return measures


class FormatFile(Strict):
    formats: Formats = Field(description="every form of the game, by the name that topics use")
