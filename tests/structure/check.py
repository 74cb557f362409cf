# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the real tree, or what was built from it, to one rule.

    check.py source RULE ROOT
    check.py objects RULE LIST-FILE      (one object path a line)
    check.py library RULE SHARED-LIBRARY
"""

import pathlib
import sys

import binary_rules
import source_rules
from house import Tree


def main(kind, rule, subject):
    if kind == "source":
        complaints = list(getattr(source_rules, rule)(Tree(subject)))
    elif kind == "objects":
        objects = pathlib.Path(subject).read_text().split()
        complaints = list(getattr(binary_rules, rule)(objects))
    else:
        complaints = list(getattr(binary_rules, rule)(subject))
    for complaint in complaints:
        print(complaint)
    return 1 if complaints else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
