"""Names in Markdown stand as they are, and are read back as they were."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from pipeline import markdown


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("<script>alert(1)</script>", "\\<script\\>alert(1)\\</script\\>"),
        ("[x](javascript:alert(1))", "\\[x\\](javascript:alert(1))"),
        ("![x](http://a)", "!\\[x\\](http://a)"),
        ("`code`", "\\`code\\`"),
        ("*a* __b__ c_d ~e~", "\\*a\\* \\_\\_b\\_\\_ c_d \\~e\\~"),
        ("&lt;b&gt; & c", "\\&lt;b\\&gt; & c"),
        ("# a\n## b", "\\# a ## b"),
        ("- a", "\\- a"),
        ("2017. It was", "2017\\. It was"),
        ("\\<b>", "\\\\\\<b\\>"),
        ("a\u202eb\x1b", "a\\u202eb\\x1b"),
        *(
            (same, same)
            for same in ("It fell by 5 % (4.2 to 6.1).", "Zoë’s economy", "3.5 an over")
        ),
    ],
)
def test_names_are_literal_in_markdown(text: str, written: str):
    assert markdown.literal(text) == written


@given(st.text(st.characters(exclude_categories=["Cs"])))
@example("2017. It \\* was\t\u200d&lt;")
def test_what_was_made_literal_is_read_back_as_it_was(text: str):
    assert markdown.plain(markdown.literal(text)) == " ".join(text.splitlines())


@pytest.mark.parametrize("text", ["It fell by 5 % (4.2 to 6.1).", "A*B_c [d] <e>", "# a", "C:\\d"])
def test_a_text_without_escapes_is_read_as_it_is(text: str):
    assert markdown.plain(text) == text


def test_only_web_addresses_are_links():
    assert markdown.address("https://example.org/a?b=c_d") == "<https://example.org/a?b=c_d>"
    assert markdown.address("javascript:x") == "javascript:x"
    assert markdown.address("https://a> <b>") == "https://a\\> \\<b\\>"
