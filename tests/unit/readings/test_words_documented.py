# SPDX-License-Identifier: GPL-3.0-or-later
"""Every header word of the dictionary is in the manual's table of header words,
and no other."""

import pathlib
import re
import sys

ENTRY = re.compile(r'\b(?:ROLE|READING|SIDE|SUMMARY|OTHER)\("([^"]+)"')


def main(root):
    source = (root / "src/readings/dictionary.c").read_text("utf-8")
    manual = (root / "docs/manual/tables.md").read_text("utf-8")
    known = set(ENTRY.findall(source))
    section = manual.split("## Header words", 1)[1].split("\n- ", 1)[0]
    rows = [line for line in section.splitlines() if line.startswith("|")]
    told = set(re.findall(r"`([^`]+)`", "\n".join(rows))) - {"before/after"}
    for word in sorted(known - told):
        print(f"'{word}' is not in docs/manual/tables.md")
    for word in sorted(told - known):
        print(f"'{word}' is in docs/manual/tables.md and unknown to the reader")
    return 1 if known != told or len(known) < 50 else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
