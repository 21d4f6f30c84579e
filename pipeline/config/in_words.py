"""What a setting holds and what it is when absent, in plain words, from its field."""

from __future__ import annotations

from collections.abc import Iterable
from types import GenericAlias
from typing import Annotated, Any

from pydantic import BaseModel, Field, TypeAdapter
from pydantic.fields import FieldInfo

from pipeline.config.fields import Slug
from pipeline.config.theme import Colour

Schema = dict[str, Any]
NUMBERS = {"integer": "whole number", "number": "number"}
PLURALS = {"text": "texts", "name": "names", "date": "dates"}
# What a pattern of the models means to people.
PATTERNS = {
    TypeAdapter(Slug).json_schema()["pattern"]: "name",
    TypeAdapter(Colour).json_schema()["pattern"]: "colour as `#RRGGBB`",
}


def coded(words: Iterable[Any]) -> str:
    """Words as code, with commas: `light`, `dark`."""
    return ", ".join(f"`{word}`" for word in words)


def holds(field: FieldInfo, links: dict[str, str]) -> str:
    """The type in plain words; `links` names the sections of other models.

    The type's own schema is read, not the field's: a field's description replaces its type's, which
    says what may be written ('5 seasons | 2012 to 2016').
    """
    annotated: Any = Annotated  # the type is known only now
    listed: Any = GenericAlias(list, (annotated[field.annotation, *field.metadata, Field()],))
    within: TypeAdapter[Any] = TypeAdapter(listed)  # a list, so that models are references
    chosen = within.json_schema(mode="serialization")["items"].get("items", {}).get("enum")
    if chosen:  # what may be written is looser ('light' for [light]) and does not list them
        return f"one or more of {coded(chosen)}"
    return _words(within.json_schema()["items"], links)


def default(field: FieldInfo) -> str:
    """The default as it would be written in the file; 'needed' where there is none."""
    if field.is_required():
        return "needed"
    value = field.get_default(call_default_factory=True)
    if isinstance(value, BaseModel):
        return "none" if not value.model_dump(exclude_none=True) else "its own defaults"
    if isinstance(value, bool):
        return f"`{str(value).lower()}`"
    if isinstance(value, list) and value:
        return coded(value)
    return "none" if value in (None, [], {}) else f"`{value}`"


def _words(schema: Schema, links: dict[str, str]) -> str:
    if "anyOf" in schema:
        return _either(schema, links)
    if "$ref" in schema:
        return f"keys of {links[schema['$ref'].rpartition('/')[2]]}"
    if "enum" in schema or "const" in schema:
        listed = schema.get("enum") or [schema["const"]]
        return f"one of {coded(listed)}" if len(listed) > 1 else coded(listed)
    if "description" in schema:
        return _written(schema["description"])
    match schema.get("type"):
        case "array":
            return _listed(schema["items"], schema, links)
        case "object":
            named = schema.get("patternProperties", {}).values()
            inner = next(iter(named), None) or schema["additionalProperties"]
            return f"names, each with {_words(inner, links)}"
        case "integer" | "number" as kind:
            return f"{NUMBERS[kind]}{_bounds(schema)}"
        case "boolean":
            return "`true` or `false`"
    if schema.get("format") == "date":
        return "date"
    return PATTERNS.get(schema.get("pattern", ""), "text")


def _either(schema: Schema, links: dict[str, str]) -> str:
    """Choices in words: 'text or a list of texts'.

    What is null says only that the key may be absent, and a whole number beside text that text may
    look like one; neither is told.
    """
    told = [one for one in schema["anyOf"] if one.get("type") != "null"]
    if any(one.get("type") == "string" for one in told):
        told = [one for one in told if one.get("type") != "integer"]
    words = [
        f"a {_listed(one['items'], {**schema, **one}, links)}"
        if one.get("type") == "array" and len(told) > 1
        else _words(one, links)
        for one in sorted(told, key=lambda one: one.get("type") == "array")
    ]
    return " or ".join(words)


def _listed(items: Schema, bounds: Schema, links: dict[str, str]) -> str:
    """'list of texts, at most 5'; that a list is not empty goes without saying."""
    if "oneOf" in items:
        return f"list, each with keys of {links['AnyKind']} and of its kind"
    if "$ref" in items:
        return f"list, each with {_words(items, links)}"
    inner = _words(items, links)
    most = bounds.get("maxItems")
    return f"list of {PLURALS.get(inner, inner)}" + (f", at most {most}" if most else "")


def _written(grammar: str) -> str:
    """'5 % | 0.6 points' as '`5 %` or `0.6 points`'."""
    forms = grammar.split(" | ")
    if len(forms) == 1:
        return grammar
    return f"{coded(forms[:-1])} or {coded(forms[-1:])}"


def _bounds(schema: Schema) -> str:
    """What a number may be: ' 3 or more', ' over 0 and under 0.5'."""
    low, high = schema.get("minimum"), schema.get("maximum")
    above, below = schema.get("exclusiveMinimum"), schema.get("exclusiveMaximum")
    if schema["type"] == "integer" and above is not None:
        low, above = above + 1, None
    if low is not None and high is not None:
        return f" {low:,.15g} to {high:,.15g}"
    parts = [
        f" {low:,.15g} or more" if low is not None else "",
        f" over {above:,.15g}" if above is not None else "",
        f" under {below:,.15g}" if below is not None else "",
        f" up to {high:,.15g}" if high is not None else "",
    ]
    return " and".join(part for part in parts if part)
