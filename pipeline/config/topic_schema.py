"""The JSON Schema of a topic's file: of a whole one, and of one that is like another.

What a topic is like supplies the keys that are left out, so an editor must not ask for them there;
and a null takes one away.
"""

from __future__ import annotations

from typing import Any

from pipeline.config.like import LIKE, TITLE
from pipeline.config.topic import Topic

Schema = dict[str, Any]
NULL: Schema = {"type": "null"}
WHOLE, DIFFERING = "Topic", "TopicLikeAnother"


def topic_schema() -> Schema:
    """Both forms, chosen by whether the file names a topic that it is like."""
    whole = Topic.model_json_schema(mode="validation")
    sections: Schema = whole.pop("$defs")
    named: Schema = {}
    properties = {
        key: value if key in (LIKE, TITLE) else _differing(value, sections, named)
        for key, value in whole["properties"].items()
    }
    properties[LIKE] = _without_null(properties[LIKE])
    differing = {**whole, "properties": properties, "required": [LIKE, TITLE]}
    return {
        "$defs": {**sections, **named, WHOLE: whole, DIFFERING: differing},
        "title": whole["title"],
        "description": whole["description"],
        "type": "object",
        "if": {"required": [LIKE], "properties": {LIKE: {"not": NULL}}},
        "then": {"$ref": f"#/$defs/{DIFFERING}"},
        "else": {"$ref": f"#/$defs/{WHOLE}"},
    }


def _differing(value: Schema, sections: Schema, named: Schema) -> Schema:
    """A key that may be taken away; of a section, one that holds only what differs.

    `named` gathers the definitions that are made for it.
    """
    kept: Schema = {key: value[key] for key in ("description", "default") if key in value}
    name = _section_of(value)
    if name is not None:
        section = sections[name]
        nullable = {key: _or_null(each) for key, each in section["properties"].items()}
        partial = {key: each for key, each in section.items() if key != "required"}
        named[f"{name}Differing"] = {**partial, "properties": nullable}
        value = {"$ref": f"#/$defs/{name}Differing"}
    elif isinstance(each := value.get("additionalProperties"), dict):  # names of the user's own
        value = {**value, "additionalProperties": _or_null(each)}
    return {**_or_null(value), **kept}


def _section_of(value: Schema) -> str | None:
    """The model that a key holds, or may hold."""
    for one in (value, *value.get("anyOf", ())):
        if "$ref" in one:
            return str(one["$ref"]).rpartition("/")[2]
    return None


def _or_null(value: Schema) -> Schema:
    return value if NULL in value.get("anyOf", ()) else {"anyOf": [value, NULL]}


def _without_null(value: Schema) -> Schema:
    return {**value, "anyOf": [one for one in value["anyOf"] if one != NULL]}
