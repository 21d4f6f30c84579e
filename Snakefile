"""Good Length: match files and a topic in, a brief out. Stages and hand-overs: DEVELOPERS.md."""

import sys
from pathlib import Path

sys.path.insert(0, workflow.basedir)

from pipeline.config import views
from pipeline.config.frame_files import SHEET, chart_files
from pipeline.config.load import load
from pipeline.errors import UserError
from pipeline.hashes import content_hash, value_hash
from pipeline.provenance import code_hash, stage_hash
from pipeline.tables import PLAYED
from pipeline.topic_files import BRIEF, LISTS, PAGES, written_by

CONFIG = config.get("folder", "config")
OUT = config.get("output", "output")
DATA = f"{OUT}/data"

try:
    PROJECT = load(CONFIG)
except UserError as error:
    print(error, file=sys.stderr)
    sys.exit(1)

SOURCES = list(PROJECT.sources)
TOPICS = list(PROJECT.topics)
RAW = ["deliveries", "dismissals", "matches", "innings", "people"]
THEME = PROJECT.theme
BRAND = [*THEME.fonts.model_dump().values(), *([THEME.logo] if THEME.logo else [])]
CLEAN = [
    *[f"{name}.parquet" for name in (*PLAYED, "innings")],
    *["players-to-fill.csv", "grounds-to-fill.csv"],
    *["corrections.json", "quality.json"],
]
# In pipeline/, not templates/: what a report says of a PDF must not make the PDF again.
CAPTIONS = "pipeline/captions"


wildcard_constraints:
    source="|".join(SOURCES),
    topic="|".join(TOPICS),


def charts_of(topic):
    asked = PROJECT.topics[topic]
    made = []
    for beat in asked.beats:
        for measure in beat.measures:
            chart = f"{beat.id}.{measure}"
            made += chart_files(chart, list(asked.frames), beat.hides_when)
    return made


def archived(name, topics):
    """A file of every archived edition of these topics; editions are never written again."""
    folder = Path(OUT) / "archive"
    return [
        str(path) for topic in topics for path in sorted(folder.glob(f"{topic}/[0-9]*/data/{name}"))
    ]


def earlier(topic):
    """What a brief takes from the archive: its own editions, and those that it cites."""
    cited = {item.fact.partition("/")[0] for item in PROJECT.topics[topic].see_also}
    return archived("edition.json", sorted({topic, *cited}))


def seen(stage, view, *files):
    """What a stage was made from: its code, its view of the configuration, raw inputs' content."""
    return value_hash([stage_hash(stage), view, [content_hash(file) for file in files]])


rule all:
    input:
        f"{OUT}/index.html",
        expand(f"{OUT}/{{topic}}/{{name}}", topic=TOPICS, name=BRIEF),
        [f"{OUT}/{topic}/charts/{name}" for topic in TOPICS for name in charts_of(topic)],
        expand(f"{OUT}/{{topic}}/charts/{SHEET}", topic=TOPICS),


for topic in TOPICS:

    rule:
        name:
            topic
        input:
            expand(f"{OUT}/{topic}/{{name}}", name=BRIEF),


rule ingest:
    input:
        lambda w: ancient(PROJECT.sources[w.source].path),
    output:
        update(expand(f"{DATA}/{{{{source}}}}/{{name}}.parquet", name=RAW)),
        report=update(f"{DATA}/{{source}}/report.json"),
    params:
        seen=lambda w: seen(
            "ingest",
            views.ingest(PROJECT, w.source),
            PROJECT.sources[w.source].path,
        ),
    shell:
        "{sys.executable} -m pipeline.ingest --config {CONFIG} --source {wildcards.source}"
        " --out {DATA}/{wildcards.source}"


rule clean:
    input:
        expand(f"{DATA}/{{source}}/{{name}}.parquet", source=SOURCES, name=RAW),
        expand(f"{DATA}/{{source}}/report.json", source=SOURCES),
    output:
        update(expand(f"{DATA}/{{name}}", name=CLEAN)),
        update(report(f"{DATA}/quality.html", caption=f"{CAPTIONS}/quality.rst", category="data")),
    params:
        seen=seen(
            "clean",
            views.clean(PROJECT),
            PROJECT.project.players,
            PROJECT.project.grounds,
            PROJECT.project.people,
            PROJECT.project.corrections,
            "templates/quality.html.jinja",
            "templates/quality.css",
        ),
    shell:
        "{sys.executable} -m pipeline.clean --config {CONFIG} --data {DATA}"


rule metrics:
    input:
        expand(f"{DATA}/{{name}}.parquet", name=PLAYED),
        f"{DATA}/corrections.json",
    output:
        update(expand(f"{OUT}/{{{{topic}}}}/{{name}}", name=written_by("metrics"))),
    params:
        seen=lambda w: seen("metrics", views.metrics(PROJECT, w.topic)),
    shell:
        "{sys.executable} -m pipeline.metrics --config {CONFIG} --topic {wildcards.topic}"
        " --data {DATA} --out {OUT}/{wildcards.topic}"


rule significance:
    input:
        expand(f"{OUT}/{{{{topic}}}}/{{name}}", name=written_by("metrics")),
    output:
        update(expand(f"{OUT}/{{{{topic}}}}/{{name}}", name=written_by("significance"))),
    params:
        seen=lambda w: seen("significance", views.significance(PROJECT, w.topic)),
    shell:
        "{sys.executable} -m pipeline.significance --config {CONFIG} --topic {wildcards.topic}"
        " --out {OUT}/{wildcards.topic}"


# One rule a topic, since the charts a topic makes are known only from its beats.
for topic in TOPICS:

    rule:
        name:
            f"charts_{topic}"
        input:
            expand(f"{OUT}/{topic}/{{name}}", name=written_by("significance")),
        output:
            update(expand(f"{OUT}/{topic}/charts/{{name}}", name=charts_of(topic))),
            update(f"{OUT}/{topic}/charts/charts.json"),
            update(
                report(
                    f"{OUT}/{topic}/charts/{SHEET}",
                    caption=f"{CAPTIONS}/contact-sheet.rst",
                    category=topic,
                )
            ),
        params:
            seen=seen("charts", views.charts(PROJECT, topic), *BRAND),
            topic=topic,
        shell:
            "{sys.executable} -m pipeline.charts --config {CONFIG} --topic {params.topic}"
            " --out {OUT}/{params.topic}"


rule brief:
    input:
        expand(f"{OUT}/{{{{topic}}}}/{{name}}", name=written_by("significance")),
        f"{OUT}/{{topic}}/charts/charts.json",
    output:
        update(
            report(
                expand(f"{OUT}/{{{{topic}}}}/{{name}}", name=PAGES),
                caption=f"{CAPTIONS}/brief.rst",
                category="{topic}",
            )
        ),
        update(expand(f"{OUT}/{{{{topic}}}}/{{name}}", name=LISTS)),
    params:
        seen=lambda w: seen(
            "brief",
            [views.brief(PROJECT, w.topic), code_hash() if earlier(w.topic) else None],
            "templates",
            *earlier(w.topic),
        ),
    shell:
        "{sys.executable} -m pipeline.brief --config {CONFIG} --topic {wildcards.topic}"
        " --out {OUT}/{wildcards.topic}"


# One rule a topic, to be asked for by name: it makes the next edition, whose number nobody knows.
for topic in TOPICS:

    rule:
        name:
            f"archive_{topic}"
        input:
            expand(f"{OUT}/{topic}/{{name}}", name=BRIEF),
            expand(f"{OUT}/{topic}/charts/{{name}}", name=charts_of(topic)),
            f"{OUT}/{topic}/charts/{SHEET}",
        params:
            topic=topic,
        shell:
            "{sys.executable} -m pipeline.archive --config {CONFIG} --topic {params.topic}"
            " --out {OUT}/{params.topic} --data {DATA}"


rule shelf:
    input:
        expand(f"{OUT}/{{topic}}/summary.json", topic=TOPICS),
    output:
        update(f"{OUT}/index.html"),
    params:
        seen=seen(
            "shelf",
            {"topics": TOPICS, "title": PROJECT.project.title},
            "templates/shelf.html.jinja",
            "templates/shelf.css",
            *archived("summary.json", ["*"]),
        ),
    shell:
        "{sys.executable} -m pipeline.shelf --config {CONFIG} --out {OUT}"
