#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The tables of docs/methods/honesty.md from what the benches printed.

honesty_table.py HONESTY_CSV WELCH_CSV writes Markdown to standard output:
    build/tests/bench/bench_honesty > docs/methods/honesty.csv
    build/tests/bench/bench_welch_few > docs/methods/welch-few.csv
    tests/bench/honesty_table.py docs/methods/honesty.csv \\
        docs/methods/welch-few.csv
"""
import csv
import sys

DESIGNS = ["mean", "unpaired", "paired", "control"]


def rows_of(path):
    with open(path, newline="") as file:
        return list(csv.DictReader(file))


def unique(rows, key):
    return list(dict.fromkeys(row[key] for row in rows))


def table(header, body):
    lines = ["| " + " | ".join(header) + " |",
             "|" + "---|" * len(header)]
    lines += ["| " + " | ".join(cells) + " |" for cells in body]
    return "\n".join(lines) + "\n"


def honesty(rows, figure):
    """One table: a line each condition, n 3, 5, 10, 20 within each design."""
    found = {(r["condition"], r["design"], r["n"]): r[figure] for r in rows}
    body = []
    for condition in unique(rows, "condition"):
        cells = [condition]
        for design in DESIGNS:
            shares = [found[condition, design, n] for n in unique(rows, "n")]
            cells.append(" ".join("%.3f" % float(s) for s in shares))
        body.append(cells)
    return table(["condition"] + DESIGNS, body)


def welch(rows):
    found = {(r["n_before"], r["n_after"], r["ratio"]): r["coverage"]
             for r in rows}
    ratios = unique(rows, "ratio")
    pairs = list(dict.fromkeys((r["n_before"], r["n_after"]) for r in rows))
    return table(["readings before, after"] + ["SD ratio " + r for r in ratios],
                 [["%s, %s" % pair] +
                  ["%.3f" % float(found[pair + (r,)]) for r in ratios]
                  for pair in pairs])


def main():
    rows = rows_of(sys.argv[1])
    for title, figure in [("coverage", "coverage"),
                          ("false change", "false_change"),
                          ("false size", "false_size")]:
        print("### %s\n\n%s" % (title.capitalize(), honesty(rows, figure)))
    print("### Welch\n\n" + welch(rows_of(sys.argv[2])))


main()
