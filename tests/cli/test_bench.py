#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_bench.py PROGRAM: scatter entries by the program and by the JSON Schema
in docs (the other members: test_bench_fields.py). Every field is left out, of another kind and out of range: the program
says line, column and what to do, writes nothing, and the schema refuses the
same file, unless no schema could. Every bench.json of the test cases, of the
demo and to start from passes both."""

import json
import pathlib
import resource
import signal
import subprocess
import sys
import tempfile

from json_schema import holds

HERE = pathlib.Path(__file__).parent
SCHEMA = HERE.parents[1] / "docs" / "bench.schema.json"
READINGS = "before (GU),after (GU)\n82.4,83.9\n81.7,83.0\n83.0,83.2\n"
GOOD = """{
  "version": 1,
  "scatter": [
    {
      "panel_type": "hull white",
      "quantity": "gloss",
      "unit": "GU",
      "geometry": "60",
      "meter": "M2",
      "sd": 0.62,
      "df": 80,
      "sets": 20,
      "date": "2026-03-14"
    }
  ]
}
"""

# --- what must be refused ---------------------------------------------------

# (old text, new text, line, words of the message, whether a schema can say it)
REFUSED = [
    ('"version": 1', '"version": 2', 2, "version must be 1", True),
    ('"version": 1', '"version": "1"', 2, "version is a text", True),
    ('  "version": 1,\n', "", 1, 'has no "version"', True),
    ('"scatter": [', '"scatters": [', 3, "its keys are version, about, inputs",
     True),
    ('"scatter": [', '"scatter": [7,', 3, "must be an object", True),
    ('"sd": 0.62,', '"sd": 0.62, "sd": 0.7,', 10, "stands here again", False),
    ('"sd": 0.62,', '"sd": 00.62,', 10, "leading zeros", False),
    ('"sd": 0.62,', '"sd": 0.,', 10, "after the decimal point", False),
    ('"sd": 0.62,', '"sd": 1e999,', 10, "too large", False),
    ('"sd": 0.62,', '"sd": 0,62,', 10, "a key in \"quotes\"", False),
    ('"sd": 0.62,', '"sd": 0,', 10, "sd must be a finite number", True),
    ('"sd": 0.62,', '"sd": -1,', 10, "sd must be a finite number", True),
    ('"sd": 0.62,', '"sd": "0.62",', 10, "must be a number", True),
    ('"df": 80,', '"df": 0.5,', 11, "df must be a number from 1", True),
    ('"df": 80,', '"df": 2e9,', 11, "df must be a number from 1", True),
    ('"df": 80,', '"df": null,', 11, "df is null", True),
    ('"sets": 20,', '"sets": 0,', 12, "sets must be a whole", True),
    ('"sets": 20,', '"sets": 1.5,', 12, "sets must be a whole", True),
    ('"sets": 20,', '"sets": [20],', 12, "sets is a list", True),
    ('2026-03-14', '14.03.2026', 13, "date must be a day", True),
    ('2026-03-14', '2026-13-14', 13, "date must be a day", True),
    ('2026-03-14', '2026-02-30', 13, "date must be a day", False),
    ('"2026-03-14"', '20260314', 13, "date is a number", True),
    ('"geometry": "60"', '"geometry": 60', 8, "must be a text", True),
    ('"geometry": "60"', '"geometry": ""', 8, "leave it out", True),
    ('"meter": "M2"', '"meter": ""', 9, "leave it out", True),
    ('"meter": "M2"', '"meter": "M\\t2"', 9, "readable text", True),
    ('"meter": "M2"', '"meter": " M2"', 9, "without blanks", True),
    ('"meter": "M2"', '"meter": "M\t2"', 9, "control character", False),
    ('"meter": "M2"', '"metre": "M2"', 9, "is no key of a scatter", True),
    ('"hull white"', '""', 5, "panel_type must not be empty", True),
    ('"hull white"', '{}', 5, "must be a text", True),
    ('"gloss"', '" "', 6, "without blanks", True),
    ('"gloss"', 'true', 6, "must be a text", True),
    ('"GU"', '""', 7, 'write "1"', True),
    ('"GU"', "GU", 7, "'G' stands where a value", False),
    ("  ]\n}\n", "  ]\n} x\n", 16, "the end of the file", False),
    ("  ]\n}\n", "  ]\n", 16, "the file ends", False),
]
REFUSED += [(f'"{key}"', f'"{key}_"', line, "is no key of a scatter", True)
            for line, key in enumerate(
                ["panel_type", "quantity", "unit", "geometry", "meter", "sd",
                 "df", "sets", "date"], 5)]
MISSING = ["panel_type", "quantity", "unit", "sd", "df", "sets", "date"]


def without(key):
    tree = json.loads(GOOD)
    del tree["scatter"][0][key]
    return json.dumps(tree)


def twice():
    tree = json.loads(GOOD)
    tree["scatter"] *= 2
    return json.dumps(tree, indent=1)


def ask(program, folder, text, *more):
    (folder / "bench.json").write_text(text, encoding="utf-8")
    return subprocess.run(
        [program, "change", "five.csv", "--geometry", "60", "--meter", "M2",
         "--scatter", "bench.json", *more], cwd=folder, capture_output=True,
        text=True)


def check_refusal(program, folder, text, line, words):
    done = ask(program, folder, text)
    place = f"bench.json, line {line}, column " if line else "bench.json"
    if done.returncode != 3 or done.stdout:
        yield f"status {done.returncode}, output {done.stdout[:80]!r}: {text}"
    if words not in done.stderr or place not in done.stderr:
        yield f"{done.stderr.strip()!r} lacks {place!r} or {words!r}"


def complaints(program, folder):
    schema = json.loads(SCHEMA.read_text("utf-8"))

    def fits(text):
        return holds(schema, json.loads(text), schema)

    (folder / "five.csv").write_text(READINGS)
    done = ask(program, folder, GOOD, "--json")
    if done.returncode or not json.loads(done.stdout)["settings"]["scatter"]:
        yield f"the good file is refused: {done.stderr}"
    if not fits(GOOD):
        yield "the schema refuses the good file"
    for old, new, line, words, by_schema in REFUSED:
        assert GOOD.count(old) == 1, old
        text = GOOD.replace(old, new)
        yield from check_refusal(program, folder, text, line, words)
        if by_schema and fits(text):
            yield f"the schema takes {new}"
    for key in MISSING:
        yield from check_refusal(program, folder, without(key), 1,
                                 f'has no "{key}"')
        if fits(without(key)):
            yield f"the schema does without {key}"
    yield from check_refusal(program, folder, twice(), 15, "keep one of them")
    for path in sorted([*(HERE / "cases").glob("*/bench*.json"),
                        *(HERE.parents[1] / "src" / "cli").glob("*/*.json")]):
        if not fits(path.read_text("utf-8")):
            yield f"the schema refuses {path.parent.name}/{path.name}"


# --- what is written --------------------------------------------------------

def small_files():
    """As on a full disk: no file grows beyond 100 bytes."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))


def pool(program, folder, path, **more):
    (folder / "sets.csv").write_text(
        "panel,gloss (GU)\nA,80.1\nA,80.9\nA,80.4\nB,81.0\nB,81.2\nB,80.1\n")
    return subprocess.run(
        [program, "panel", "sets.csv", "--geometry", "60", "--bank", path,
         "--panel-type", "transom", "--date", "2026-03-20"], cwd=folder,
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, **more)


def writing(program, folder):
    file = folder / "bench.json"
    file.write_text(GOOD, encoding="utf-8")
    before = set(folder.iterdir()) | {folder / "sets.csv"}
    done = pool(program, folder, "bench.json", preexec_fn=small_files)
    if done.returncode != 4 or "as it was before" not in done.stderr:
        yield f"full disk: {done.returncode} {done.stderr}"
    if file.read_text("utf-8") != GOOD or set(folder.iterdir()) - before:
        yield "a full disk left traces"
    done = pool(program, folder, "not-there/bench.json")
    if done.returncode != 4 or "No such file" not in done.stderr:
        yield f"no folder: {done.returncode} {done.stderr}"
    file.chmod(0o640)
    done = pool(program, folder, "bench.json")
    text = file.read_text("utf-8")
    entries = json.loads(text)["scatter"]
    if done.returncode or entries[0] != json.loads(GOOD)["scatter"][0]:
        yield f"the other entry is not kept: {done.stderr} {text}"
    if [e["panel_type"] for e in entries] != ["hull white", "transom"]:
        yield f"these are the entries: {text}"
    if file.stat().st_mode & 0o777 != 0o640 or set(folder.iterdir()) - before:
        yield "other rights, or files left beside it"
    pool(program, folder, "bench.json")
    if file.read_text("utf-8") != text:
        yield "the same pool gives other bytes"
    link = folder / "link.json"
    link.symlink_to("bench.json")
    file.write_text(GOOD, encoding="utf-8")
    pool(program, folder, "link.json")
    if not link.is_symlink() or file.read_text("utf-8") != text:
        yield "a link to the bench file is not followed"
    done = subprocess.run(
        [program, "change", "five.csv", "--geometry", "60", "--scatter",
         "bench.json", "--panel-type", "transom", "--json"], cwd=folder,
        capture_output=True, text=True)
    used = json.loads(done.stdout)["settings"]["scatter"]
    if {k: v for k, v in used.items() if k in entries[1]} != entries[1]:
        yield f"change uses {used}, not {entries[1]}"


def main():
    with tempfile.TemporaryDirectory() as folder:
        found = list(complaints(sys.argv[1], pathlib.Path(folder)))
        found += writing(sys.argv[1], pathlib.Path(folder))
    print("\n".join(found) if found else "program and schema agree")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
