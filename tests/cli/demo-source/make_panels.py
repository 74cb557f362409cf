#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""make_panels.py DIR: the demo's panels, drawn from a truth that is known.

hull-map.csv   a panel of 6 x 8 spots, two readings at each
operators.csv  three of the shed's crew read the same eight spots twice
sets.csv       five readings on each of sixteen hull panels of one kind

The truth stands in docs/manual/demo.md. The readings are rounded to the 0.1 GU
of the display."""

import math
import pathlib
import random
import sys

STEP = 0.1


def shown(value):
    return f"{round(value / STEP) * STEP:.1f}"


def cholesky(matrix):
    n = len(matrix)
    root = [[0.0] * n for _ in range(n)]
    for i in range(n):
        for j in range(i + 1):
            rest = matrix[i][j] - sum(root[i][k] * root[j][k] for k in range(j))
            root[i][j] = math.sqrt(rest) if i == j else rest / root[j][j]
    return root


def hull_map():
    """Mean 84.6, a rise of 0.2 a column, spots of SD 0.6 of which nine tenths
    of the variance is shared with neighbours (range 2 places), repeats 0.15."""
    draw = random.Random(18)
    places = [(row, column) for row in range(1, 7) for column in range(1, 9)]
    shared = [[0.6 ** 2 * (0.9 * math.exp(-math.dist(a, b) / 2) if a != b else 1)
               for b in places] for a in places]
    root = cholesky(shared)
    free = [draw.gauss(0, 1) for _ in places]
    yield "spot,repeat,gloss (GU)"
    for i, (row, column) in enumerate(places):
        spot = sum(root[i][k] * free[k] for k in range(i + 1))
        spot += 84.6 + 0.2 * (column - 4.5)
        for repeat in (1, 2):
            yield (f"{'ABCDEF'[row - 1]}{column},{repeat},"
                   f"{shown(spot + draw.gauss(0, 0.15))}")


def operators():
    """Spots of SD 0.8, operators 0.3, both together 0.1, repeats 0.15."""
    draw = random.Random(16)
    crew = {name: draw.gauss(0, 0.3) for name in ("skipper", "mate", "cook")}
    spots = [84.6 + draw.gauss(0, 0.8) for _ in range(8)]
    yield "operator,spot,repeat,gloss (GU)"
    for name, own in crew.items():
        for i, spot in enumerate(spots):
            both = draw.gauss(0, 0.1)
            for repeat in (1, 2):
                value = spot + own + both + draw.gauss(0, 0.15)
                yield f"{name},{i + 1},{repeat},{shown(value)}"


def sets():
    """Panels of SD 1.5 among each other, spots of SD 0.4 on each; those of H11
    scatter three times as much."""
    draw = random.Random(9)
    yield "panel,gloss (GU)"
    for panel in range(1, 17):
        mean = 84.6 + draw.gauss(0, 1.5)
        for _ in range(5):
            value = mean + draw.gauss(0, 1.2 if panel == 11 else 0.4)
            yield f"H{panel},{shown(value)}"


def main(folder):
    for name, lines in (("hull-map.csv", hull_map()),
                        ("operators.csv", operators()), ("sets.csv", sets())):
        (pathlib.Path(folder) / name).write_text("\n".join(lines) + "\n",
                                                 encoding="ascii")


if __name__ == "__main__":
    main(sys.argv[1])
