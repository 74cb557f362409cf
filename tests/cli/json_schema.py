# SPDX-License-Identifier: GPL-3.0-or-later
"""The part of JSON Schema that the schema of the bench file uses."""

import re

KINDS = {
    "object": lambda v: isinstance(v, dict),
    "array": lambda v: isinstance(v, list),
    "string": lambda v: isinstance(v, str),
    "boolean": lambda v: isinstance(v, bool),
    "number": lambda v: isinstance(v, (int, float)) and not isinstance(v, bool),
    "integer": lambda v: KINDS["number"](v) and float(v).is_integer(),
}
KNOWN = {"$schema", "$defs", "$ref", "title", "description", "type",
         "additionalProperties", "required", "properties", "items", "const",
         "enum", "minLength", "pattern", "minimum", "maximum",
         "exclusiveMinimum", "exclusiveMaximum", "minItems", "maxItems",
         "uniqueItems", "anyOf", "not", "if", "then"}


def named(schema, root):
    """What $ref points to, with the schema's own words on top."""
    if "$ref" not in schema:
        return schema
    found = root
    for step in schema["$ref"].removeprefix("#/").split("/"):
        found = found[step]
    return {**named(found, root),
            **{k: v for k, v in schema.items() if k != "$ref"}}


def same(a, b):
    return a == b and isinstance(a, bool) == isinstance(b, bool)


def combined(schema, value, root):
    if "anyOf" in schema and not any(holds(s, value, root)
                                     for s in schema["anyOf"]):
        return False
    if "not" in schema and holds(schema["not"], value, root):
        return False
    return ("if" not in schema or not holds(schema["if"], value, root)
            or holds(schema["then"], value, root))


def object_holds(schema, value, root):
    members = schema.get("properties", {})
    return (set(schema.get("required", [])) <= value.keys()
            and (schema.get("additionalProperties", True)
                 or value.keys() <= members.keys())
            and all(holds(members[k], v, root) for k, v in value.items()
                    if k in members))


def array_holds(schema, value, root):
    unique = {repr(v) for v in value}
    return (schema.get("minItems", 0) <= len(value)
            <= schema.get("maxItems", len(value))
            and (not schema.get("uniqueItems") or len(unique) == len(value))
            and all(holds(schema.get("items", {}), v, root) for v in value))


def number_holds(schema, value):
    return (schema.get("minimum", value) <= value
            <= schema.get("maximum", value)
            and value > schema.get("exclusiveMinimum", float("-inf"))
            and value < schema.get("exclusiveMaximum", float("inf")))


def holds(schema, value, root):
    schema = named(schema, root)
    assert schema.keys() <= KNOWN, schema.keys() - KNOWN
    if "type" in schema and not KINDS[schema["type"]](value):
        return False
    if "const" in schema and not same(value, schema["const"]):
        return False
    if "enum" in schema and not any(same(value, v) for v in schema["enum"]):
        return False
    if not combined(schema, value, root):
        return False
    if isinstance(value, dict):
        return object_holds(schema, value, root)
    if isinstance(value, list):
        return array_holds(schema, value, root)
    if isinstance(value, str):
        return (len(value) >= schema.get("minLength", 0)
                and re.search(schema.get("pattern", ""), value) is not None)
    return not KINDS["number"](value) or number_holds(schema, value)
