"""Good Length: match files and a topic in, a brief out. Stages and hand-overs: DEVELOPERS.md."""

import re
import sys
from pathlib import Path

sys.path.insert(0, workflow.basedir)

from snakemake.logging import logger
from snakemake.settings.types import ExecMode, Quietness

from pipeline.build.told import Told
from pipeline.config.frame_files import SHEET
from pipeline.config.load import load
from pipeline.errors import UserError, tell
from pipeline.records.outputs import QUALITY, Files
from pipeline.records.state import forget
from pipeline.records.steps import Steps
from pipeline.topic_files import LISTS, PAGES

if Quietness.ALL in (workflow.output_settings.quiet or ()):
    logger.addHandler(Told())

CONFIG = config.get("folder", "config")
OUT = config.get("output", "output")
DATA = f"{OUT}/data"

try:
    PROJECT = load(CONFIG)
except UserError as error:
    tell(error)
    sys.exit(1)

SOURCES = list(PROJECT.sources)
TOPICS = list(PROJECT.topics)
FILES = Files(PROJECT, Path(OUT))
STEPS = {(step.stage, step.name): step for step in Steps(PROJECT, OUT).all()}
# In pipeline/, not templates/: what a report says of a PDF must not make the PDF again.
CAPTIONS = "pipeline/captions"

# What was changed by hand, cut short or made of something else is made again, whatever the
# workflow remembers. A job that was sent elsewhere leaves that to the run that sent it.
if workflow.exec_mode == ExecMode.DEFAULT:
    forget(STEPS.values(), OUT)

# Each stage leaves a record of what it read and wrote when it ends well. It is an output like any
# other: taken away before the job begins, and asked for by every target.
MADE = " --seen {params.seen} --view {params.view} --outputs {OUT:q} --record {output.record:q}"


wildcard_constraints:
    source="|".join(map(re.escape, SOURCES)),
    topic="|".join(map(re.escape, TOPICS)),


def records(*topics):
    """Records of the data's steps and of these topics': all that an up-to-date brief rests on."""
    return [
        step.record
        for step in STEPS.values()
        if step.stage in ("ingest", "clean") or (step.name in topics)
    ]


def named(paths, *names):
    return [path for path in paths if Path(path).name in names]


def others(paths, *names):
    return [path for path in paths if Path(path).name not in names]


def seen(stage):
    return lambda w: STEPS[stage, "".join(w)].seen


def view(stage):
    return lambda w: STEPS[stage, "".join(w)].view


rule all:
    input:
        STEPS["shelf", ""].record,
        records(*TOPICS),


for topic in TOPICS:

    rule:
        name:
            topic
        input:
            records(topic),


rule ingest:
    input:
        lambda w: ancient(PROJECT.sources[w.source].path),
    output:
        update(FILES.written_by("ingest", "{source}")),
        record=FILES.record("ingest", "{source}"),
    threads: 6
    params:
        seen=seen("ingest"),
        view=view("ingest"),
    shell:
        "{sys.executable:q} -m pipeline.ingest --config {CONFIG:q} --source {wildcards.source}"
        " --out {DATA:q}/{wildcards.source} --threads {threads}" + MADE


rule clean:
    input:
        FILES.read_by("clean", ""),
    output:
        update(others(FILES.written_by("clean", ""), QUALITY)),
        update(report(f"{DATA}/{QUALITY}", caption=f"{CAPTIONS}/quality.rst", category="data")),
        record=FILES.record("clean", ""),
    threads: 4
    params:
        seen=seen("clean"),
        view=view("clean"),
    shell:
        "{sys.executable:q} -m pipeline.clean --config {CONFIG:q} --data {DATA:q}"
        " --threads {threads}" + MADE


rule metrics:
    input:
        FILES.read_by("metrics", "{topic}"),
    output:
        update(FILES.written_by("metrics", "{topic}")),
        record=FILES.record("metrics", "{topic}"),
    threads: 2
    params:
        seen=seen("metrics"),
        view=view("metrics"),
    shell:
        "{sys.executable:q} -m pipeline.metrics --config {CONFIG:q} --topic {wildcards.topic}"
        " --data {DATA:q} --out {OUT:q}/{wildcards.topic}" + MADE


rule significance:
    input:
        FILES.read_by("significance", "{topic}"),
    output:
        update(FILES.written_by("significance", "{topic}")),
        record=FILES.record("significance", "{topic}"),
    params:
        seen=seen("significance"),
        view=view("significance"),
    shell:
        "{sys.executable:q} -m pipeline.significance --config {CONFIG:q} --topic {wildcards.topic}"
        " --out {OUT:q}/{wildcards.topic}" + MADE


# Asked for by the brief of a topic, and by its target, only where it has a script or captions.
rule script:
    input:
        FILES.read_by("script", "{topic}"),
    output:
        update(FILES.written_by("script", "{topic}")),
        record=FILES.record("script", "{topic}"),
    params:
        seen=seen("script"),
        view=view("script"),
    shell:
        "{sys.executable:q} -m pipeline.script --config {CONFIG:q} --topic {wildcards.topic}"
        " --out {OUT:q}/{wildcards.topic}" + MADE


# One rule a topic, since the charts a topic makes are known only from its beats.
for topic in TOPICS:

    rule:
        name:
            f"charts_{topic}"
        input:
            FILES.read_by("charts", topic),
        output:
            update(others(FILES.written_by("charts", topic), SHEET)),
            update(
                report(
                    f"{OUT}/{topic}/charts/{SHEET}",
                    caption=f"{CAPTIONS}/contact-sheet.rst",
                    category=topic,
                )
            ),
            record=FILES.record("charts", topic),
        params:
            seen=STEPS["charts", topic].seen,
            view=STEPS["charts", topic].view,
            topic=topic,
        shell:
            "{sys.executable:q} -m pipeline.charts --config {CONFIG:q} --topic {params.topic}"
            " --out {OUT:q}/{params.topic}" + MADE


rule brief:
    input:
        lambda w: FILES.read_by("brief", w.topic),
    output:
        update(
            report(
                named(FILES.written_by("brief", "{topic}"), *PAGES),
                caption=f"{CAPTIONS}/brief.rst",
                category="{topic}",
            )
        ),
        update(named(FILES.written_by("brief", "{topic}"), *LISTS)),
        record=FILES.record("brief", "{topic}"),
    params:
        seen=seen("brief"),
        view=view("brief"),
    shell:
        "{sys.executable:q} -m pipeline.brief --config {CONFIG:q} --topic {wildcards.topic}"
        " --out {OUT:q}/{wildcards.topic}" + MADE


# One rule a topic, to be asked for by name: it makes the next edition, whose number nobody knows.
for topic in TOPICS:

    rule:
        name:
            f"archive_{topic}"
        input:
            records(topic),
        params:
            topic=topic,
        shell:
            "{sys.executable:q} -m pipeline.archive --config {CONFIG:q} --topic {params.topic}"
            " --out {OUT:q}/{params.topic} --data {DATA:q}"


rule shelf:
    input:
        FILES.read_by("shelf", ""),
    output:
        update(FILES.written_by("shelf", "")),
        record=FILES.record("shelf", ""),
    params:
        seen=seen("shelf"),
        view=view("shelf"),
    shell:
        "{sys.executable:q} -m pipeline.shelf --config {CONFIG:q} --out {OUT:q}" + MADE


onerror:
    # The shelf of what there is now; its record is gone, so that the next run makes it anew.
    shell("{sys.executable:q} -m pipeline.shelf --config {CONFIG:q} --out {OUT:q} --stale")
