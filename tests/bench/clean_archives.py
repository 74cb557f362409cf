#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""clean_archives.py PROGRAM [ARCHIVES]: archives in which every figure is right,
and archives in which slips are planted, through `audit`. Prints the table of
docs/methods/audit.md: how often right figures are accused, how often a change
that is none is called beyond the scatter, which slips are found."""

import json
import pathlib
import random
import subprocess
import sys
import tempfile
from collections import Counter

ROOT = pathlib.Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "reference-data" / "archive"))
sys.dont_write_bytecode = True

from shed_archive import HEADER, SLIPS, Claim, plant  # noqa: E402

PROGRAM = sys.argv[1]
ARCHIVES = int(sys.argv[2]) if len(sys.argv) > 2 else 1000
CLAIMS = 40
BENCH = ROOT / "src" / "cli" / "demo" / "scores.json"


def audit(rows, header=HEADER):
    with tempfile.NamedTemporaryFile("w", suffix=".csv") as file:
        file.write(header + "\n" + "\n".join(rows) + "\n")
        file.flush()
        done = subprocess.run(
            [PROGRAM, "audit", file.name, "--bench", BENCH, "--json",
             "--brief", *(["--before", "b*", "--after", "a*"]
                          if header != HEADER else [])],
            capture_output=True, text=True)
    if done.returncode:
        sys.exit(done.stderr)
    return json.loads(done.stdout)["results"]["claims"]


def draw(rng, number, share, digits=None):
    truth = rng.choice([0.5, 1.0, 2.0, 3.0]) if rng.random() < share else 0.0
    place = ("H1", rng.uniform(75, 90), "2024-05-01", "by hand")
    claim = Claim(rng, number, truth, 10 ** rng.uniform(-1, 0.3),
                  rng.randint(3, 20) if digits is None else rng.choice([4, 5]),
                  place, digits or rng.choice([1, 2, 3]))
    return claim


def clean(rng, share):
    told = Counter()
    for _ in range(ARCHIVES):
        claims = [draw(rng, i, share) for i in range(1, CLAIMS + 1)]
        found = audit([c.row() for c in claims])
        accused = sum(bool(f["faults"]) for f in found)
        beyond = [f["verdict"] == "beyond" for f in found]
        false = sum(b and c.truth == 0 for b, c in zip(beyond, claims))
        told["claims"] += len(claims)
        told["accused"] += accused
        told["archives accused"] += accused > 0
        told["null"] += sum(c.truth == 0 for c in claims)
        told["false beyond"] += false
        told["archives with a false one"] += false > 0
        told["false share"] += false / max(1, sum(beyond))
        told["real"] += sum(c.truth != 0 for c in claims)
        told["real beyond"] += sum(b and c.truth != 0
                                   for b, c in zip(beyond, claims))
    return told


def beside_readings(rng):
    """Accused, of how many, where the readings stand beside the figures."""
    accused = made = 0
    for _ in range(max(1, ARCHIVES // 20)):
        n = rng.randint(3, 12)
        header = ",".join([HEADER, *(f"b{i}" for i in range(n)),
                           *(f"a{i}" for i in range(n))])
        claims = [Claim(rng, i, rng.choice([0, 0.5, 2]),
                        10 ** rng.uniform(-1, 0.3), n,
                        ("H1", rng.uniform(75, 90), "2024-05-01", "by hand"),
                        rng.choice([1, 2, 3])) for i in range(1, CLAIMS + 1)]
        found = audit([",".join([c.row(), *map(str, c.before + c.after)])
                       for c in claims], header)
        accused += sum(bool(f["faults"]) for f in found)
        made += len(found)
    return accused, made


def planted(rng, kind):
    found = wrong = made = 0
    while made < ARCHIVES // 5:
        claim = draw(rng, 1, 1, digits=2)
        if not plant(claim, kind):
            continue
        made += 1
        others = [draw(rng, i, 0.5) for i in range(2, 5)]
        told = audit([c.row() for c in [claim, *others]])
        found += kind in told[0]["faults"]
        wrong += sum(bool(f["faults"]) for f in told[1:])
    return found, made, wrong


def main():
    rng = random.Random(5)
    print("| real changes | archives | claims accused | archives accused | "
          "false among those called beyond | null claims called beyond | "
          "archives with a false one | real changes called beyond |")
    print("|---|---|---|---|---|---|---|---|")
    for share in (0, 0.25, 0.75):
        t = clean(rng, share)
        print(f"| {share:.0%} | {ARCHIVES} | {t['accused']} of {t['claims']} | "
              f"{t['archives accused']} | {t['false share'] / ARCHIVES:.2%} | "
              f"{t['false beyond'] / max(1, t['null']):.3%} | "
              f"{t['archives with a false one'] / ARCHIVES:.1%} | "
              f"{t['real beyond'] / max(1, t['real']):.0%} |", flush=True)
    accused, made = beside_readings(random.Random(6))
    print(f"\nWith the readings beside them: {accused} of {made} accused.")
    print("\n| slip planted | found | others accused |\n|---|---|---|")
    for kind in SLIPS:
        found, made, wrong = planted(rng, kind)
        print(f"| `{kind}` | {found} of {made} | {wrong} of {3 * made} |",
              flush=True)


if __name__ == "__main__":
    main()
