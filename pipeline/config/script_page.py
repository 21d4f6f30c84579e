"""How a kept script is written, for config/README.md."""

from __future__ import annotations

# What each form of a fact is; they are made in wording/fact_forms.py.
FORMS = {
    "said": "as the brief says it, with its unit and direction: *about six per cent down*",
    "size": "the size alone, to what its interval can bear: *about six per cent*",
    "rounded": "as a line rounds it, with its unit: *four and a half an over*",
    "number": "the same without its unit: *four and a half*",
    "range": "what a change could be: *anywhere from five to ten per cent down*",
    "apart": "the same of two groups: *anywhere from five to ten per cent lower*",
    "extent": "the same where another word has the direction: *anywhere from five to ten per cent*",
    "between": "its interval: *between five and ten per cent down*",
    "fraction": "a share as a fraction, where one is true of it: *about one in seven*",
    "low": "the lower end of its interval, alone: *five*",
    "high": "the upper end: *ten*",
    "shown": "in figures, as a table shows it: *−7.4%*",
    "interval": "its interval in figures: *−10.2 to −4.6*",
}

SCRIPT = """## topics/*.script.md

A script of your own beside its topic: `python -m pipeline script TOPIC --keep` takes the draft of
the last build, once. Nothing writes over the file; `TOPIC.script.json` beside it holds what its
numbers were, and may be deleted (then all count as new). It is Markdown, and of it is read:

| written | is |
| --- | --- |
| `# Title` | the title, once |
| `## Heading` | a part; a time in brackets behind it is passed over, since it is counted anew |
| a paragraph, an item of a list | a line to say; `*stressed*` is set so |
| `> Chart: beat.measure` | a cue for a chart of the topic |
| `> Sponsor: The break (0:30)` | a slot, whose time counts |
| `> anything else` | a note, set apart and not counted |
| `<!-- a remark -->` | nothing: no slot in it counts |
| `{{ fact-id \\| form }}` | a number: an id of facts.csv, a form of those below (else `said`) |

A form that is written with a capital begins with one: `{{ kinds.economy.change | Size }}`. An id,
form or chart that there is not is an error with its line and the nearest name, as are braces that
are not closed (`\\{{` writes two). A fact has the forms that make sense of it.

Beside it may stand a script in plain text (`TOPIC.script.txt`) and the captions of the recording
(`TOPIC.vtt`, `TOPIC.srt`), in UTF-8. What is said in any of the four is checked at every build.

| form | is |
| --- | --- |
""" + "".join(f"| `{name}` | {meaning} |\n" for name, meaning in FORMS.items())
