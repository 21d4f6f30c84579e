"""The forms of a fact: each from its own fields, each with what it is made of in it."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec import structs

from pipeline.brief.facts import facts_of
from pipeline.config import script_page
from pipeline.config.kinds import KINDS
from pipeline.contracts.facts import Fact
from pipeline.contracts.files import as_written
from pipeline.wording import phrases
from pipeline.wording.fact_forms import FORMS, LEVEL, forms_of, in_form, sign_of
from tests.brief_makers import brief_view, findings_of
from tests.finding_makers import change, drift, effect, span, step_test

BEAT = KINDS["before_after"].model_validate(
    {"id": "b", "kind": "before_after", "measure": ["economy", "fours"]}
)
MOVE = {
    **{"id": "b.economy.change", "value": -0.0736, "low": -0.102, "high": -0.046},
    **{"unit": "per cent", "display": "−7.4%", "spoken": "about seven per cent down"},
    **{"interval": "−10.2 to −4.6", "scale": 100, "digits": 0, "unit_said": "per cent"},
}
VALUE = {
    **{"id": "b.economy.before", "value": 4.486, "low": 4.36, "high": 4.59, "digits": 1},
    **{"unit": "runs an over", "display": "4.49", "spoken": "four point four nine an over"},
    **{"interval": "4.36 to 4.59", "unit_said": "an over"},
}


def fact(like: dict[str, Any], **more: Any) -> Fact:
    return Fact(**{**like, **more})


def test_a_move_has_its_size_its_range_and_its_figures():
    assert forms_of(fact(MOVE)) == {
        "said": "about seven per cent down",
        "size": "about seven per cent",
        "rounded": "seven per cent",
        "number": "seven",
        "range": "anywhere from five to ten per cent down",
        "apart": "anywhere from five to ten per cent lower",
        "extent": "anywhere from five to ten per cent",
        "between": "between five and ten per cent down",
        "low": "ten",
        "high": "five",
        "shown": "−7.4%",
        "interval": "−10.2 to −4.6",
    }


def test_a_value_is_rounded_as_a_line_rounds_it_and_has_no_direction():
    forms = forms_of(fact(VALUE))
    assert (forms["number"], forms["rounded"]) == ("four and a half", "four and a half an over")
    assert not {"size", "range", "extent", "apart", "fraction"} & set(forms)
    assert forms["between"] == "between four point four and four point six an over"


def test_a_share_can_be_a_fraction_only_where_it_is_one():
    share = {**VALUE, "unit_said": "per cent", "spoken": "", "low": None, "high": None}
    assert in_form(fact(share, value=33.4), "fraction") == "about a third"
    assert in_form(fact(share, value=41.0), "fraction") == "forty-one per cent"
    assert in_form(fact(MOVE), "fraction") is None


def test_what_happens_on_the_field_has_its_own_words_of_direction():
    felt = {**MOVE, "value": 4.2, "low": 1.1, "high": 7.2, "scale": 1, "unit_said": "runs"}
    forms = forms_of(fact(felt, spoken="about four runs more", digits=0))
    assert (forms["size"], forms["range"]) == (
        "about four runs",
        "anywhere from one to seven runs more",
    )


def test_a_drift_keeps_what_it_is_counted_by():
    slope = fact(MOVE, spoken="about two per cent a season up")
    assert in_form(slope, "size") == "about two per cent a season"


def test_of_what_rounds_to_nothing_there_is_a_range():
    level = {**MOVE, "value": -0.001, "low": -2.1, "high": 2.2, "scale": 1, "digits": 0}
    forms = forms_of(fact(level, spoken=LEVEL, unit_said="percentage points"))
    assert forms["range"] == "anywhere between two percentage points down and two up"
    assert forms["size"] == "less than one percentage point"


def test_a_capital_is_asked_for_with_a_capital():
    assert in_form(fact(MOVE), "Range") == "Anywhere from five to ten per cent down"
    assert in_form(fact(VALUE), "Size") is None
    with pytest.raises(KeyError):
        in_form(fact(MOVE), "rnage")


def test_what_an_older_version_wrote_has_the_forms_that_it_can_have():
    old = {**MOVE, "scale": 1, "digits": None, "unit_said": None}
    told = {"said", "size", "shown", "interval", "low", "high"}
    assert set(forms_of(fact(old))) == told
    assert set(forms_of(fact({**VALUE, "digits": None, "unit_said": None}))) == told - {"size"}
    assert set(forms_of(Fact(id="x", value=None, unit="", display="x", spoken="x"))) == {
        "said",
        "shown",
    }


def test_every_form_is_told_of():
    assert list(script_page.FORMS) == list(FORMS)
    assert all(form.isalpha() and form.islower() for form in FORMS)


SPANS = st.tuples(st.floats(-0.9, 3), st.floats(0.0005, 0.5), st.floats(0.0005, 0.5)).map(
    lambda each: span(
        round(each[0], 6), low=round(each[0] - each[1], 6), high=round(each[0] + each[2], 6)
    )
)


@given(told=SPANS, step=SPANS)
def test_forms_say_what_lines_make_of_the_finding(told: Any, step: Any):
    """Held against the sentences' own functions, not against the forms'."""
    test = structs.replace(step_test(), step=step)
    found = change("b.economy", effect=effect(relative=told), drift=drift(test=test))
    facts = {each.id: each for each in facts_of(brief_view([BEAT]), findings_of(found))}
    for name, of in (("change", told), ("step", step)):
        made = facts[f"b.economy.{name}"]
        ends = of.low * 100, of.high * 100
        assert in_form(made, "extent") == phrases.range_said(*ends, "per cent", None)
        assert in_form(made, "range") == phrases.range_said(*ends, "per cent")
        assert in_form(made, "between") == phrases.interval_said(*ends, "per cent")
        assert in_form(made, "size") == phrases.size(of.value * 100, of.half * 100, 1, "per cent")
        assert sign_of(made) == (1 if of.value > 0 else -1)
        assert forms_of(as_written(made)) == forms_of(made), "a form needs more than facts.json has"
