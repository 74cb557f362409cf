#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""run_cases.py PROGRAM [NAME...]: each folder of cases/ holds case.json and
its input files. case.json is one case or a list of them (see case.py)."""

import json
import pathlib
import sys

from case import complaints

CASES = pathlib.Path(__file__).parent / "cases"


def cases(names):
    for folder in sorted(CASES.iterdir()):
        if names and folder.name not in names:
            continue
        loaded = json.loads((folder / "case.json").read_text("utf-8"))
        for case in loaded if isinstance(loaded, list) else [loaded]:
            yield folder, case


def main():
    program, names = sys.argv[1], sys.argv[2:]
    ran = failed = 0
    for folder, case in cases(names):
        ran += 1
        found = list(complaints(program, case, folder))
        failed += bool(found)
        for line in found:
            print(f"{folder.name}: {case['command']}\n  {line}")
    print(f"{ran} cases, {failed} failed")
    return 1 if failed or not ran else 0


if __name__ == "__main__":
    sys.exit(main())
