#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""run_exports.py PROGRAM: each exports/FILE has FILE.expect.json with the
command to try (readings or change), and what its JSON must hold. FILE is
given with no option but --json; every file must have its expectations."""

import json
import pathlib
import shlex
import sys

from case import complaints

EXPORTS = pathlib.Path(__file__).parent / "exports"
SUFFIX = ".expect.json"


def case_of(expectations, file):
    case = json.loads(expectations.read_text("utf-8"))
    words = [word for word in shlex.split(case["command"])
             if word not in ("scatterwise", "--json")]
    if file.name not in words:
        words.append(file.name)
    case["command"] = shlex.join(["scatterwise", *words, "--json"])
    return case


def main():
    program = sys.argv[1]
    files = sorted(path for path in EXPORTS.iterdir()
                   if not path.name.endswith((SUFFIX, ".md")))
    failed = 0
    for file in files:
        expectations = file.with_name(file.name + SUFFIX)
        if not expectations.exists():
            print(f"{file.name}: has no {expectations.name}")
            failed += 1
            continue
        found = list(complaints(program, case_of(expectations, file), EXPORTS))
        failed += bool(found)
        for line in found:
            print(f"{file.name}: {line}")
    print(f"{len(files)} exports, {failed} failed")
    return 1 if failed or not files else 0


if __name__ == "__main__":
    sys.exit(main())
