"""Correction: an archived number that moved, all that used it, what to say, where it was said."""

from __future__ import annotations

import csv
import json
import re
import shutil
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from pipeline.archive import contents
from pipeline.clean.stage import clean
from pipeline.config import views
from pipeline.config.load import load
from pipeline.config.views import BriefView
from pipeline.contracts.editions import Around
from pipeline.contracts.errata import EditionErrata, Wording
from pipeline.contracts.facts import Fact
from pipeline.editions.reading import read_facts
from pipeline.errata.command import correction
from pipeline.errata.edition_printed import edition_printed
from pipeline.errata.hearing import heard, places
from pipeline.errata.sentences import said_in
from pipeline.errors import UserError
from pipeline.run import make_topic
from pipeline.topic_files import BRIEF
from pipeline.transcripts.caption_files import captions
from pipeline.transcripts.rolling import spoken
from pipeline.wording.script_checked import clock
from tests.asking import rows
from tests.editions import archive, change, project_of, record

pytestmark = pytest.mark.slow
View = dict[str, Any]
TOPIC = "long-grass"
SPINNERS = "kinds.economy.spin-middle"
CHANGE = f"{SPINNERS}.change"
CITED = f"\nsee_also:\n  - {{fact: '{TOPIC}/1:{CHANGE}', say: As we said}}\n"
# Fours off spin in the middle overs of one season: enough for the change to move.
FOURS = """
    SELECT match_id, innings, over, delivery
    FROM 'output/data/deliveries.parquet' JOIN 'output/data/matches.parquet' USING (match_id)
    WHERE bowler_kind = 'spin' AND over BETWEEN 11 AND 40 AND runs_batter = 4 AND four
    AND season = '2019' ORDER BY ALL LIMIT 60
"""
STOPPED = (
    *("", "", "runs_batter", "4", "0", "Fours that the fielder stopped", "Film of the day, reel 3"),
    *("Demo researcher", "2027-02-01"),
)


def quick(view: BriefView, folder: Path, edition: int, archive: Path) -> Around:
    """An edition's pages as they are built, not made anew."""
    for name in BRIEF:
        shutil.copy(f"output/{view.topic}/{name}", folder / name)
    return Around(see_also=[], since=None)


def remade() -> None:
    """The topic built again in this process, without its PDF."""
    config, out = load("config", only=TOPIC), Path("output") / TOPIC
    make_topic(config, TOPIC, out, Path("output/data"), paper=False)
    record(TOPIC)


@pytest.fixture(scope="module")
def mended(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Edition 1 of two topics, one citing the other; then sixty fours mended and a beat dropped."""
    home = project_of(built, tmp_path_factory.mktemp("mended"), TOPIC, "sea-air")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(home)
        patch.delenv("SOURCE_DATE_EPOCH", raising=False)
        patch.setattr(contents, "write_brief", quick)
        cites = Path("config/topics/sea-air.yaml")
        cites.write_text(cites.read_text("utf-8") + CITED, "utf-8")
        archive(TOPIC)
        archive("sea-air")
        fours = rows(FOURS)
        assert len(fours) == 60
        with Path("config/corrections.csv").open("a", newline="") as file:
            csv.writer(file).writerows((*place, *STOPPED) for place in fours)
        clean(views.clean(load("config")), Path("output/data"))
        text = Path(f"config/topics/{TOPIC}.yaml").read_text("utf-8")
        start, end = text.index("  - id: who"), text.index("  - id: wickets")
        change(f"topics/{TOPIC}.yaml", text[start:end], "")
        remade()
    return home


@pytest.fixture()
def home(mended: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The mended project as the working directory; read only."""
    monkeypatch.chdir(mended)
    return mended


def asked(capsys: pytest.CaptureFixture[str], folder: Path, *words: str) -> tuple[str, View]:
    """What is printed, and the same as JSON."""
    path = folder / "report.json"
    correction([*words, "--json", str(path)])
    return capsys.readouterr().out, json.loads(path.read_text("utf-8"))


def facts(folder: Path) -> dict[str, Fact]:
    return {fact.id: fact for fact in read_facts(folder, "")}


# Then and now


def test_it_finds_the_edition_all_that_used_the_number_and_why_it_moved(home, tmp_path, capsys):
    said, found = asked(capsys, tmp_path, CHANGE)
    kept = Path("output/archive/long-grass/1/data")
    old, new = facts(kept)[CHANGE], facts(Path("output") / TOPIC)[CHANGE]
    assert old.display != new.display
    assert found["wrong"] == [{"edition": 1, "date": "2026-11-25"}]
    (edition,) = found["editions"]
    sentences = {item["sentence"]: item for item in edition["sentences"]}
    answer = json.loads((kept / "summary.json").read_text("utf-8"))["answer"]
    (told,) = (line for line in answer if "Spin’s economy in the middle overs fell" in line)
    fell = told.partition("? The data agree. ")[2]
    assert sentences[fell]["part"] == "The answer" and sentences[fell]["own"]
    points = (kept / "talking-points.md").read_text("utf-8")
    opened = [sentence for sentence, item in sentences.items() if item["part"] == "Cold open"]
    assert all((item in points) != (item in opened) for item in sentences)
    assert not any("oundary" in sentence or "Pace" in sentence for sentence in sentences)
    (chart,) = edition["charts"]
    assert chart["files"] == ["kinds.economy.png", "kinds.economy.svg", "kinds.economy.csv"]
    assert chart["title_says"] and all(
        (kept / "charts" / name).is_file() for name in chart["files"]
    )
    lines = (kept / "facts.csv").read_text("utf-8").splitlines()
    assert [lines[row["line"] - 1].split(",")[0] for row in edition["rows"]] == [CHANGE]
    assert [item["by"] for item in edition["cited"]] == ["topic sea-air", "edition 1 of sea-air"]
    fixes = edition["why"]["corrections"]["new"]
    assert len(fixes) == 60 and {fix["by"] for fix in fixes} == {"Demo researcher"}
    assert edition["why"]["settings"] == [] and edition["why"]["data"]
    assert "60 new corrections: Fours that the fielder stopped (Film of the day, reel 3;" in said
    assert max(map(len, said.splitlines())) <= 100


def test_the_draft_has_old_and_new_the_reason_on_record_and_the_verdict(home, tmp_path, capsys):
    _, found = asked(capsys, tmp_path, CHANGE)
    was = facts(Path("output/archive/long-grass/1/data"))[CHANGE].spoken.removesuffix(" down")
    now = facts(Path("output") / TOPIC)[CHANGE].spoken.removesuffix(" down")
    assert found["drafts"] == [
        "Correction. In ‘Did the long grass rescue the spinner?’, edition 1 of 25 November 2026, "
        f"we said that spin’s economy in the middle overs fell by {was}. It fell by {now}. "
        "The reason on record: ‘Fours that the fielder stopped’ (Film of the day, reel 3). "
        "The verdict is the same: changed."
    ]


def test_a_finding_means_its_facts_and_what_was_rounded_alike_stays(home, tmp_path, capsys):
    said, found = asked(capsys, tmp_path, SPINNERS)
    assert {f["id"] for f in found["facts"]} == {
        i for i in facts(Path("output") / TOPIC) if i.startswith(f"{SPINNERS}.")
    }
    (edition,) = found["editions"]
    assert f"{SPINNERS}.after" in edition["moved"] and f"{SPINNERS}.before" not in edition["moved"]
    went = [s for s in edition["sentences"] if "four point one" in s["sentence"]]
    assert [s["part"] for s in went] == ["Pace and spin, phase by phase", "Cold open"]
    for item in went:
        assert [(form["old"], form["new"]) for form in item["says"]] == [("four point one", "four")]
    assert re.search(r"^  \d+ other facts? of it: as before$", said, re.MULTILINE)


def test_a_number_that_did_not_move_has_nothing_to_correct(home, tmp_path, capsys):
    said, found = asked(capsys, tmp_path, f"{SPINNERS}.before")
    assert "nothing to correct: 1 archived edition says what the brief says now" in said
    assert found["wrong"] == found["drafts"] == []


def test_a_topic_without_editions_has_nothing_to_correct(built, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(project_of(built, tmp_path / "home", "sea-air"))
    said, _ = asked(capsys, tmp_path, "coast.economy.pace.change")
    assert "nothing to correct: no edition of the topic is archived" in said


def test_a_fact_that_is_no_more_is_found_in_the_edition(home, tmp_path, capsys):
    said, found = asked(capsys, tmp_path, "who.spin-share.difference")
    assert "now         not in it" in said
    assert "The brief no longer has that number." in found["drafts"][0]
    lines = [item["sentence"] for item in found["editions"][0]["sentences"] if item["own"]]
    assert any("pin’s share of the balls in the middle overs" in line for line in lines)
    assert any("anywhere from seven to ten percentage points" in line for line in lines)


def test_a_verdict_that_moved_takes_its_sentences_with_it(mended, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(project_of(mended, tmp_path / "home", TOPIC, "archive"))
    text = Path("config/measures.yaml").read_text("utf-8")
    start = text.index("  economy:")
    at = text.index("margin", start)
    line = text[at : text.index("\n", at)]
    wide = text[:at] + "margin: 20 %" + text[at + len(line) :]
    Path("config/measures.yaml").write_text(wide, "utf-8")
    remade()
    _, found = asked(capsys, tmp_path, CHANGE)
    (edition,) = found["editions"]
    assert "The verdict does not stand: it was ‘changed’, and is ‘held’." in found["drafts"][0]
    fallen = [item["sentence"] for item in edition["sentences"] if item["verdict"]]
    assert "“The spinners got their game back”? The data agree." in fallen
    whole = [line for line in fallen if "four and a half an over" in line]
    assert any("pin’s economy in the middle overs" in line for line in whole), "the cold open"
    assert not any("going the other way" in line for line in fallen), "that is how a line follows"
    assert "measures.economy.margin.size" in [s["where"] for s in edition["why"]["settings"]]
    assert "How it is asked or counted has been changed since." in found["drafts"][0]


@pytest.mark.parametrize(
    ("file", "gone", "message"),
    [
        ("findings.json", "timing", "not what it should hold: .*`timing`"),
        ("config/merged.json", "brief", "not what it should hold: .*`brief`"),
        ("facts.json", "facts", "not what it should hold: .*`facts`"),
    ],
)
def test_what_is_no_edition_s_is_told_with_what_to_do(
    mended, tmp_path, monkeypatch, file, gone, message
):
    monkeypatch.chdir(project_of(mended, tmp_path / "home", TOPIC, "archive"))
    path = Path("output/archive/long-grass/1/data") / file
    found = json.loads(path.read_text("utf-8"))
    del found[gone]
    path.parent.chmod(0o755)
    path.chmod(0o644)
    path.write_text(json.dumps(found), "utf-8")
    with pytest.raises(UserError, match=rf"{file}: {message}.*; run python -m pipeline verify"):
        correction([CHANGE])


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["kinds.economy.spin-midle.change"], "did you mean 'kinds.economy.spin-middle.change'?"),
        (
            ["--edition", f"{TOPIC}/7"],
            f"no edition here; give its folder, or TOPIC/NUMBER (there: {TOPIC}/1)",
        ),
        ([CHANGE, "--topic", "nowhere"], "no built or archived topic 'nowhere' here"),
        (["data.balls"], "2 topics have it: long-grass, sea-air; name one with --topic"),
        ([CHANGE, "--captions", "none.srt"], "none.srt: can't be read: No such file"),
        ([CHANGE, "--captions", "config/corrections.csv"], "expected SubRip (.srt), WebVTT"),
        ([CHANGE, "--captions", f"output/{TOPIC}/tallies.parquet"], "not UTF-8 text (byte"),
    ],
)
def test_a_mistake_is_one_line_with_what_to_do(home, words, message):
    with pytest.raises(UserError) as caught:
        correction(words)
    assert message in str(caught.value) and "\n" not in str(caught.value)


def test_corrections_that_are_not_built_in_yet_are_not_passed_over(mended, tmp_path, monkeypatch):
    monkeypatch.chdir(project_of(mended, tmp_path / "home", TOPIC, "archive"))
    change("corrections.csv", "2027-02-01", "2027-02-02")
    with pytest.raises(
        UserError, match=r"not what the clean tables were made with; run make brief"
    ):
        correction([CHANGE])


# How it is heard


@pytest.mark.parametrize(
    ("text", "said", "bare", "there"),
    [
        ("down 7%, then", "seven per cent", False, True),
        ("down 7 percent", "seven per cent", False, True),
        ("twenty-seven per cent", "seven per cent", False, False),
        ("twenty seven per cent", "seven per cent", False, False),
        ("one hundred and seven per cent", "seven per cent", False, False),
        ("6.7 per cent", "seven per cent", False, False),
        ("Twenty. Seven per cent", "seven per cent", False, True),
        ("to four point two.", "four point two", True, True),
        ("to four point two five.", "four point two", True, False),
        ("four point two per cent", "four point two", True, False),
        ("to 4.2 in a spell", "four point two", True, True),
        ("four and a half an over", "four", True, False),
        ("fell by 1.4 pts", "one point four percentage points", False, True),
        ("0.33 runs per over", "nought point three three runs an over", False, True),
        ("three points up", "three percentage points", False, True),
        ("nought point six of a percentage point", "nought point six of a point", False, True),
        ("anywhere from five to seven per cent", "seven per cent", False, False),
        ("anywhere between seven per cent down and two up", "seven per cent", False, False),
        ("between five and seven per cent up", "seven per cent", False, False),
        ("anything up to seven per cent up fits", "seven per cent", False, False),
        ("anywhere from half a run an over to two", "half a run an over", False, False),
        ("That is anywhere. Seven per cent it was", "seven per cent", False, True),
        ("it went up to seven per cent", "seven per cent", False, True),
        ("anywhere from 5 to 7% down", "anywhere from five to seven per cent down", False, True),
    ],
)
def test_a_number_is_heard_whole_or_not_at_all(text, said, bare, there):
    assert bool(list(places(heard(text), [(said, bare)]))) is there


def test_a_sentence_on_the_drift_has_numbers_of_its_own():
    """'About eight per cent up' is the change in one sentence, and another number in the next."""
    drift = (
        "It was rising by about two per cent a season anyway: that comes to about eight per cent."
    )
    said = {"old": "eight per cent", "new": "three per cent", "right": False, "bare": False}
    change = Wording(**said, of="change")
    assert said_in(drift, [change]) == []
    assert said_in("That is eight per cent.", [change]) == [change]
    assert said_in(drift, [Wording(**said, of="drift")])
    control = "Measured against pace, it is down: about eight per cent."
    beyond = Wording(**said, of="beyond-control")
    assert said_in(control, [change, beyond]) == [beyond]
    assert said_in("That is eight per cent.", [beyond]) == []


SRT = """1
00:00:05,000 --> 00:00:08,000
Only nearly 9% of you subscribe.

2
00:03:12,250 --> 00:03:14,000
Spin&#39;s economy in the middle
overs fell by nearly

3
00:03:14,000 --> 00:03:16,000
nine per cent &amp; that's real

4
01:02:00,000 --> 01:02:03,000
thirty-nine per cent, and 29% of it
"""
ROLLING = """WEBVTT

03:12.250 --> 03:13.000
 
Spin's economy in<00:03:12.700><c> the middle</c>

03:13.000 --> 03:13.010
Spin's economy in the middle

03:13.010 --> 03:14.000
Spin's economy in the middle
overs fell by nearly

03:14.000 --> 03:16.000
overs fell by nearly
9 percent &amp; that's real

NOTE nearly nine per cent

1:05:02.000 --> 1:05:04.000
It fell

1:05:02.500 --> 1:05:04.000
It fell nearly nine

1:05:03.000 --> 1:05:04.000
It fell nearly nine per cent
"""


@pytest.mark.parametrize(
    ("name", "text", "named", "alone"),
    [("a.srt", SRT, ["03:12"], ["00:05"]), ("a.vtt", ROLLING, ["03:13"], ["1:05:02"])],
)
def test_captions_are_stamped_and_words_alone_are_marked(
    home, tmp_path, capsys, name, text, named, alone
):
    path = tmp_path / name
    path.write_text(text, "utf-8")
    said, found = asked(capsys, tmp_path, CHANGE, "--captions", str(path))
    for word, expected in ((True, named), (False, alone)):
        places_ = [p for p in found["captions"]["places"] if p["named"] is word]
        assert [clock(place["at"]) for place in places_] == expected
        assert {place["old"] for place in places_} == {"nearly nine per cent"}
    new = facts(Path("output") / TOPIC)[CHANGE].spoken.removesuffix(" down")
    stamped = f"{named[0]} Correction: we say nearly nine per cent; it is {new}."
    assert stamped in said.splitlines()
    head, tail = said.split("The words alone, maybe of another number")
    assert stamped in head and f"{alone[0]} Correction: we say" in tail


def test_captions_without_it_say_what_was_looked_for(home, tmp_path, capsys):
    path = tmp_path / "other.srt"
    path.write_text("1\n00:00:01,000 --> 00:00:02,000\nThirty-nine per cent.\n", "utf-8-sig")
    said, found = asked(capsys, tmp_path, CHANGE, "--captions", str(path))
    assert found["captions"]["places"] == []
    assert "Not found. Looked for:" in said and "8.6%" in said


def test_a_digit_said_twice_over_two_events_is_kept(tmp_path):
    path = tmp_path / "twice.srt"
    path.write_text(
        "1\n00:00:01,000 --> 00:00:02,000\nfive point one\n\n"
        "2\n00:00:02,000 --> 00:00:03,000\none an over\n",
        "utf-8",
    )
    words = " ".join(caption.text for caption in spoken(captions(path))).split()
    assert words == ["five", "point", "one", "one", "an", "over"]


SAID = """WEBVTT

00:01.000 --> 00:03.000
spin's economy in the middle overs fell by eight

00:03.000 --> 00:06.000
and a half per cent

02:00.000 --> 02:04.000
economy as a whole held

04:00.000 --> 04:04.000
spin's share of the balls in the middle overs rose by eight and a half points
"""


def test_a_number_is_heard_in_words_that_no_line_has(home, tmp_path, capsys):
    path = tmp_path / "said.vtt"
    path.write_text(SAID, "utf-8")
    said, found = asked(capsys, tmp_path, CHANGE, "--captions", str(path))
    new = facts(Path("output") / TOPIC)[CHANGE].spoken.removesuffix(" down")
    (place,) = found["captions"]["places"]
    assert (place["old"], place["new"], place["named"], place["verdict"]) == (
        *("eight and a half per cent", new, True),
        None,
    )
    assert f"00:01 Correction: we say eight and a half per cent; it is {new}." in said


def test_a_sentence_without_a_number_that_stands_on_a_verdict_that_turned_is_heard(
    home, tmp_path, capsys
):
    path = tmp_path / "said.vtt"
    path.write_text(SAID, "utf-8")
    said, found = asked(capsys, tmp_path, "kinds.economy", "--captions", str(path))
    (place,) = found["captions"]["places"]
    assert place["at"] == 120_000 and place["old"] == "economy as a whole held"
    assert "02:00 Correction: we say “economy as a whole held”. The verdict does not stand" in said
    path.write_text(SAID.replace("whole held", "whole may have held"), "utf-8")
    _, found = asked(capsys, tmp_path, "kinds.economy", "--captions", str(path))
    assert found["captions"]["places"] == []


def test_all_that_moved_since_an_edition_is_told_at_once(home, tmp_path, capsys):
    path = tmp_path / "said.vtt"
    path.write_text(SAID, "utf-8")
    said, found = asked(capsys, tmp_path, "--edition", f"{TOPIC}/1", "--captions", str(path))
    assert (found["topic"], found["edition"]) == (TOPIC, 1)
    moved = {each["asked"]: each for each in found["moved"]}
    assert {SPINNERS, "kinds.economy", "who.spin-share"} <= set(moved)
    (alone,) = [each for each in moved[SPINNERS]["facts"] if each["id"] == CHANGE]
    _, one = asked(capsys, tmp_path, CHANGE)
    assert alone == one["facts"][0] and moved[SPINNERS]["drafts"] == one["drafts"]
    (heard_,) = found["captions"]
    assert [(clock(place["at"]), place["old"]) for place in heard_["places"]] == [
        ("00:01", "eight and a half per cent"),
        ("02:00", "economy as a whole held"),
        ("04:00", "eight and a half points"),
    ]
    assert "04:00 Correction: we say eight and a half points; there is no such number." in said
    assert all(len(line) <= 100 or "Correction: we say" in line for line in said.splitlines())


def test_an_edition_s_own_script_is_gone_through_where_no_captions_are_named(
    home, tmp_path, capsys
):
    topics = Path(f"output/archive/{TOPIC}/1/data/config/topics")
    kept = topics / f"{TOPIC}.script.md"
    topics.chmod(0o755)
    try:
        kept.write_text(f"# T\n\nIt fell by {{{{ {CHANGE} | size }}}}.\n", "utf-8")
        said, found = asked(capsys, tmp_path, "--edition", f"{TOPIC}/1")
    finally:
        kept.unlink()
    old = facts(Path(f"output/archive/{TOPIC}/1/data"))[CHANGE].spoken.removesuffix(" down")
    (heard_,) = found["captions"]
    (place,) = heard_["places"]
    assert heard_["estimated"] and place["old"] in old and not place["right"]
    assert f"In the script ({kept})" in said


def test_an_edition_that_says_what_is_said_now_has_nothing_to_correct():
    found = EditionErrata(topic="t", edition=3, date=date(2026, 11, 5), moved=[], captions=[])
    assert edition_printed(found) == [
        "t: edition 3 of 5 November 2026",
        "  nothing to correct: the brief says what it said",
    ]


def test_a_script_without_times_is_timed_at_the_usual_rate(home, tmp_path, capsys):
    path = tmp_path / "script.txt"
    opening = " ".join(["word"] * 80)  # half a minute at 160 words a minute
    path.write_text(f"{opening}\n\nSpin's economy in the middle overs fell by 9%.\n", "utf-8")
    said, found = asked(capsys, tmp_path, CHANGE, "--captions", str(path))
    assert "as if read at 160 words a minute" in said
    assert [(clock(p["at"]), p["named"]) for p in found["captions"]["places"]] == [("00:30", True)]
