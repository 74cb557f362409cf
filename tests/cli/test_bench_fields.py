#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_bench_fields.py PROGRAM: inputs, correlations, quantities, rules and
scores of bench files by the program and by the JSON Schema in docs. The schema itself says
what there is: each field of each kind of item is left out, put in, of another
kind, just within and just beyond its range, and beside a key that is none. The
program takes what the schema takes; what the schema refuses it refuses with
status 3 at the line and column of the field. What no schema can say is listed
below."""

import copy
import json
import math
import pathlib
import subprocess
import sys
import tempfile

from json_schema import KINDS, holds, named

HERE = pathlib.Path(__file__).parent
ROOT = json.loads((HERE.parents[1] / "docs" / "bench.schema.json")
                  .read_text("utf-8"))
WHOLE = (HERE.parent / "unit" / "bench" / "whole.json").read_text("utf-8")
READINGS = "before (GU),after (GU)\n82.4,83.9\n81.7,83.0\n83.0,83.2\n"
MARK = "its place"

# --- items of the whole file and what the schema says of each ---------------


def fits(tree):
    return holds(ROOT, tree, ROOT)


def objects(schema, value, path):
    """(path, schema) of every object below `value`."""
    schema = named(schema, ROOT)
    if "anyOf" in schema and "properties" not in schema:
        schema = next(named(s, ROOT) for s in schema["anyOf"]
                      if holds(s, value, ROOT))
    if isinstance(value, list):
        for i, item in enumerate(value):
            yield from objects(schema["items"], item, path + [i])
    elif isinstance(value, dict):
        yield path, schema
        for key, item in value.items():
            yield from objects(schema["properties"][key], item, path + [key])


def at(tree, path):
    for step in path:
        tree = tree[step]
    return tree


def changed(path, key, value):
    tree = json.loads(WHOLE)
    at(tree, path)[key] = value
    return tree


# --- values beside those that are right -------------------------------------

OTHERS = [None, True, 7, "x", [], {}]


def nearby(number, way):
    return math.nextafter(number, way * math.inf)


def numbers(schema):
    for key, way in (("minimum", -1), ("maximum", 1)):
        if key in schema:
            step = 1 if schema["type"] == "integer" else 0
            yield schema[key]
            yield schema[key] + way * step if step else nearby(
                float(schema[key]), way)
    for key, way in (("exclusiveMinimum", 1), ("exclusiveMaximum", -1)):
        if key in schema:
            yield schema[key]
            yield nearby(schema[key], -way)
            yield nearby(schema[key], way) if schema[key] else 1e-6
    if schema["type"] == "integer":
        yield schema["minimum"] + 0.5
    if "not" in schema:
        yield schema["not"]["const"]


def lists(schema):
    item = 1.5 if named(schema["items"], ROOT).get("type") == "number" else "x"
    if "minItems" in schema:
        yield [item] * (schema["minItems"] - 1)
    yield [item, {}]
    if schema.get("maxItems", 10) < 10:
        yield [f"x{i}" for i in range(schema["maxItems"] + 1)]


def candidates(schema):
    """Values for a field, right and wrong."""
    schema = named(schema, ROOT)
    yield from OTHERS
    yield from schema.get("enum", [])
    kind = schema.get("type")
    if kind in ("number", "integer"):
        yield from numbers(schema)
    elif kind == "string":
        yield from ["", " x", "x ", "a\tb", "\x7f"]
        yield from schema.get("not", {}).get("enum", [])
    elif kind == "array":
        yield from lists(schema)
    elif kind == "boolean":
        yield False


# --- the program ------------------------------------------------------------


def place_of(tree_text):
    line = tree_text[:tree_text.index(MARK)].count("\n") + 1
    row = tree_text.split("\n")[line - 1]
    return f"bench.json, line {line}, column {row.index(MARK) + 1}: "


def as_text(tree):
    return json.dumps(tree, indent=2, ensure_ascii=False)


class Asker:
    def __init__(self, program, folder):
        self.program, self.folder, self.asked = program, folder, 0
        (folder / "five.csv").write_text(READINGS)

    def answer(self, text):
        self.asked += 1
        (self.folder / "bench.json").write_text(text, encoding="utf-8")
        return subprocess.run(
            [self.program, "change", "five.csv", "--geometry", "60", "--meter",
             "M2", "--scatter", "bench.json", "--json"], cwd=self.folder,
            capture_output=True, text=True)

    def refusal(self, text, place, words):
        done = self.answer(text)
        if done.returncode != 3 or done.stdout:
            yield f"status {done.returncode}: wanted {place}{words}"
        elif place not in done.stderr or words not in done.stderr:
            yield f"{done.stderr.strip()!r} lacks {place!r} or {words!r}"


# A field that only fits together with others, and what the program then says.
TOGETHER = ["its readings are all the same", "no input is called",
            "no input and no quantity above", "low must be below",
            "must be less than `half_width`", "holds no scatter",
            "must rise from rung to rung", "must not fall from rung to rung",
            "must be the name of one of the file's rules",
            "is that of an earlier"]


def clashes(done):
    return any(words in done.stderr for words in TOGETHER)


def field(ask, path, schema, key, tried):
    """One field with every candidate."""
    for value in candidates(schema["properties"][key]):
        tree = changed(path, key, value)
        where = f"{path} {key} = {value!r}"
        alone = holds(schema["properties"][key], value, ROOT)
        if fits(tree):
            done = ask.answer(as_text(tree))
            if done.returncode and not clashes(done):
                yield f"{where}: the schema takes it: {done.stderr.strip()}"
            tried["taken"] += done.returncode == 0
            continue
        text = as_text(tree)
        place, words = "bench.json, line ", ""
        if not alone and not isinstance(value, (list, dict)):
            marked = as_text(changed(path, key, MARK))
            place, words = place_of(marked.replace(f'"{MARK}"', MARK)), key
        for complaint in ask.refusal(text, place, words):
            yield f"{where}: {complaint}"
        tried["refused"] += 1


def whole_item(ask, path, schema, tried):
    """Keys left out, and one too many."""
    item = at(json.loads(WHOLE), path)
    for key in item:
        tree = json.loads(WHOLE)
        del at(tree, path)[key]
        done = ask.answer(as_text(tree))
        if fits(tree) != (done.returncode == 0) and not clashes(done):
            yield f"{path} without {key}: {done.stderr.strip()}"
        if key in schema.get("required", []) and not (
                done.returncode == 3
                and any(q + key + q in done.stderr for q in '"`')):
            yield f"{path} without {key}: {done.stderr.strip()}"
        tried["left out"] += 1
    tree = changed(path, MARK, 1)
    if fits(tree):
        yield f"{path}: the schema takes any key"
    text = as_text(tree)
    place = place_of(text.replace(f'"{MARK}"', MARK))
    yield from (f"{path}: {c}" for c in ask.refusal(
        text, place, f'"{MARK}" is no key of'))


def complaints(ask, tried):
    if not fits(json.loads(WHOLE)) or ask.answer(WHOLE).returncode:
        yield "the whole file is refused"
    for path, schema in objects(ROOT, json.loads(WHOLE), []):
        if path[:1] == ["scatter"]:
            continue
        yield from whole_item(ask, path, schema, tried)
        for key in schema["properties"]:
            yield from field(ask, path, schema, key, tried)


# --- what no schema can say, and what only stands together ------------------

# (old text, new text with @ at the place, words, whether the schema refuses)
LISTED = [
    ('"name": "zero"', '"name": @"pull"', "name is that of line 5 too", False),
    ('"name": "both"', '"name": @"zero"', "name is that of line", False),
    ("(pull - zero) / block", "(pull - @zeros) / block",
     "no input and no quantity above is called `zeros`", False),
    ("(pull - zero) / block", "(pull - zero) @block", "expected", False),
    ("(pull - zero) / block", "(pull - @both) / block",
     "this quantity stands further down", False),
    ("(pull - zero) / block", "(pull - @friction) / block",
     "this is the quantity itself", False),
    ("(pull - zero) / block", "(pull - \\u007aero) / @blok", "`blok`", False),
    ('"level", "line_angle"', '@"tilt", "line_angle"', "no input is called",
     False),
    ('["tile", "raw"]', '@["line_angle", "level"]', "correlation already",
     False),
    ('["tile", "raw"]', '["tile", @"größe"]', "is exact", False),
    ('["tile", "raw"]', '@["tile", "tile"]', "two different inputs", True),
    ('["level", "line_angle"], "coefficient": -0.36},',
     '["tile", "span"], "coefficient": 0.1},', "eigenvalue is -0.00499", False),
    ('"readings": [160.0, 150.5, 170.0]', '"readings": @[160, 160, 160]',
     "all the same", False),
    ('"low": 0.1', '"low": @0.4', "low must be below", False),
    ('"limit_half_width": 0.1', '"limit_half_width": @0.4', "must be less than",
     False),
    ('"half_width": 2,', '"half_width": 2, @"half_width": 3,',
     "stands here again", False),
    ('"value": 1,\n      "uncertainty": 0.004',
     '"value": 0,\n      "uncertainty": 0.004', "relative uncertainty", True),
    ('"k": 2,', '"k": 2, "df": 5, "unreliability": @0.1,', "the same thing",
     True),
    ('"k": 2,', "", "give `k`, or the `level`", True),
    ('"measures": "friction",', '"measures": "friction", "geometry": @"60",',
     'goes with "measures": "gloss"', True),
    ('"name": "slip"', '"name": @"gloss gain"', "that of an earlier rule",
     False),
    ('"name": "by eye"', '"name": @"overall"', "that of an earlier score",
     False),
    ('"rule": "beading"', '"rule": @"beads"', "the file's rules", False),
    ('{"rule": "gloss gain",', '{"rule": @"wash",', "in this score twice",
     False),
    ('{"passes": 50,', '{"passes": @25,', "must rise from rung", False),
    ('"points": 10}', '"points": @4.5}', "must not fall from rung", False),
    ('"low": 0,\n      "high": 12', '"low": @12,\n      "high": 12',
     "low must be below", False),
    ('"low": -10,', '"low": @100,', "low must be below", False),
    ('"multiplier": 2,', '"multiplier": @2, "points": 1,',
     "give one of them", True),
    ('"multiplier": 2,', '"multiplier": @2, "per": 1,', "give one of them",
     True),
    ('"multiplier": 2,', '"points": @2,', "needs the other one", True),
    ('"multiplier": 2,', '"per": @2,', "needs the other one", True),
    ('"multiplier": 2,', "", "what one unit is worth", True),
    ('"multiplier": 1,\n      "high": 10\n', '"high": 10, "points": @2\n',
     "needs the other one", True),
    ('"high": 10\n', '"high": 10, "rungs": @[]\n', "belong to a ladder", True),
    ('"high": 10\n', '"high": 10, "baseline": @"B0"\n', "have a side before",
     True),
    ('"offset": 1,', '"offset": 1, "multiplier": @2,', "no meaning for a ladder",
     True),
    ('"offset": 1,', '"offset": 1, "points": @2,', "no meaning for a ladder",
     True),
    ('"offset": 1,', '"offset": 1, "per": @2,', "no meaning for a ladder", True),
    ('"offset": 1,', '"offset": 1, "rounding": @{"ties": "away"},',
     "no meaning for a ladder", True),
    ('"offset": 1,', '"offset": 1, "baseline": @"B0",', "have a side before",
     True),
    ('"rounding": {"points": 1,', '"rounding": {@"mean": 1, "points": 1,',
     "its keys are points, ties", True),
]


def listed(ask):
    for old, new, words, by_schema in LISTED:
        assert WHOLE.count(old) == 1, old
        start = WHOLE[:WHOLE.index(old)] + new[:new.find("@")]
        row = start.split("\n")[-1]
        place = (f"bench.json, line {start.count(chr(10)) + 1}, column "
                 f"{len(row) + 1}: ") if "@" in new else "bench.json, line "
        text = WHOLE.replace(old, new.replace("@", ""))
        yield from ask.refusal(text, place, words)
        if by_schema and fits(json.loads(text)):
            yield f"the schema takes {new}"


def main():
    tried = {"taken": 0, "refused": 0, "left out": 0}
    with tempfile.TemporaryDirectory() as folder:
        ask = Asker(sys.argv[1], pathlib.Path(folder))
        found = list(complaints(ask, tried)) + list(listed(ask))
    kinds = {i["kind"] for i in json.loads(WHOLE)["inputs"]}
    if len(kinds) != 10 or min(tried.values()) < 100:
        found.append(f"too little was tried: {kinds} {tried}")
    print("\n".join(found) if found
          else f"program and schema agree on {ask.asked} files: {tried}")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
