"""The JSON Schema of a topic's file: of a whole one, and of one that is like another.

What a topic is like supplies the keys that are left out, so an editor must not ask for them there;
and a null takes one away, if a topic can do without it.
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
        for key, value in _nullable(whole).items()
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
    """What a key holds; of a section only what differs. `named` gathers the definitions for it."""
    if "anyOf" in value:
        return {**value, "anyOf": [_differing(one, sections, named) for one in value["anyOf"]]}
    if "$ref" in value:
        name = str(value["$ref"]).rpartition("/")[2]
        partial = {key: each for key, each in sections[name].items() if key != "required"}
        named[f"{name}Differing"] = {**partial, "properties": _nullable(sections[name])}
        return {**value, "$ref": f"#/$defs/{name}Differing"}
    if "patternProperties" in value:  # names of the user's own
        own = {key: _or_null(each) for key, each in value["patternProperties"].items()}
        return {**value, "patternProperties": own}
    if isinstance(each := value.get("additionalProperties"), dict):
        return {**value, "additionalProperties": _or_null(each)}
    return value


def _nullable(section: Schema) -> Schema:
    """A section's keys, each of which may be taken away unless it is needed."""
    needed = section.get("required", ())
    return {
        key: value if key in needed else _or_null(value)
        for key, value in section["properties"].items()
    }


def _or_null(value: Schema) -> Schema:
    if NULL in value.get("anyOf", ()):
        return value
    said: Schema = {key: value[key] for key in ("description", "default") if key in value}
    return {"anyOf": [value, NULL], **said}


def _without_null(value: Schema) -> Schema:
    return {**value, "anyOf": [one for one in value["anyOf"] if one != NULL]}
