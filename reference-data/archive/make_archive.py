#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""make_archive.py ARCHIVE TRUTH: three years of the shed's dressings."""

import random
import sys

from shed_archive import HEADER, SLIPS, Claim, plant

SEED = 20261
PANELS = {"H1": 82.6, "H2": 84.1, "H3": 81.9, "H4": 83.4}
DRIFT = {"H1": -0.45}  # GU a year: the panel every claim of which starts lower
TRUTHS = [0, 0, 0, 0.4, 1.0, 2.2, 2.2, 3.5]


def date_of(number):
    day = 14 + number * 22  # from January 2023 on
    year, rest = divmod(day, 365)
    month, date = divmod(rest, 31)
    return f"{2023 + year}-{min(12, month + 1):02d}-{min(28, date + 1):02d}", day


def make(rng, number, n):
    panel = sorted(PANELS)[number % 4]
    date, day = date_of(number)
    level = PANELS[panel] + DRIFT.get(panel, 0) * day / 365
    method = "by hand" if number <= 30 else "on the jig"
    return Claim(rng, number, TRUTHS[number % len(TRUTHS)], rng.uniform(0.4, 0.8),
                 n, (panel, level, date, method))


def main():
    rng = random.Random(SEED)
    claims = []
    slips = dict(zip([6, 13, 19, 26, 35, 44], SLIPS))
    for number in range(1, 49):
        slip = slips.get(number)
        claim = None
        while claim is None or (slip and not plant(claim, slip)):
            n = 4 if slip else rng.choice([3, 5, 6, 8, 10])
            claim = make(rng, number, n)
        if not slip:
            claim.has_sd = number % 4 != 2
            claim.has_n = number not in (11, 29)
            claim.has_means = number not in (9, 22, 38)
        claims.append(claim)
    with open(sys.argv[1], "w") as archive:
        archive.write("# The boat shed's published gloss scores, 2023 to 2025. "
                      "Invented.\n" + HEADER + "\n")
        archive.writelines(claim.row() + "\n" for claim in claims)
    with open(sys.argv[2], "w") as truth:
        truth.write("id,true_change,slip\n")
        truth.writelines(f"A{c.number:02d},{c.truth},{c.slip}\n" for c in claims)


if __name__ == "__main__":
    main()
