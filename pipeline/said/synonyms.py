"""Other words of the trade for what the configuration names, out of words/names.toml."""

from __future__ import annotations

from collections.abc import Iterator

from pipeline.said.word_lists import table


def _joined(words: list[str]) -> str:
    return "|".join(words)


def _measures() -> Iterator[tuple[str, tuple[str, ...]]]:
    """Words with the measures that they may be; of what a topic lacks with a name of their own."""
    for names, words in table("names.measures").items():
        yield _joined(words), tuple(names.split(" or "))
    for name, words in table("names.lacking").items():
        yield _joined(words), (f"~{name}",)


MEASURES: dict[str, tuple[str, ...]] = dict(_measures())
VALUES: dict[tuple[str, str], str] = {
    (cut, value): _joined(words)
    for cut, values in table("names.values").items()
    for value, words in values.items()
}
PHASES = {name: _joined(words) for name, words in table("names.phases").items()}
PARTS = {name: _joined(words) for name, words in table("names.parts").items()}
_OTHERS = table("names.others")
WHOLE_INNINGS = _joined(_OTHERS["whole_innings"])  # from first ball to last
OF_NO_MEASURE: tuple[str, ...] = tuple(_OTHERS["of_no_measure"])
BEFORE, AFTER = _joined(_OTHERS["before"]), _joined(_OTHERS["after"])
# What a place's name is made into: 'north' is 'northern', 'coast' is 'coastal'.
OF_A_PLACE = ("", "al", "ern", "s", "side")
