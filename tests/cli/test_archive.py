#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_archive.py PROGRAM REFERENCE_DATA: the demo's archive is audited, and what
was planted in it is found: every slip, no other, and no more than that."""

import csv
import json
import pathlib
import subprocess
import sys
import tempfile

PROGRAM, DATA = sys.argv[1], pathlib.Path(sys.argv[2]) / "archive"
DEMO = pathlib.Path(__file__).parents[2] / "src" / "cli" / "demo"
# What a planted slip is told beside: what else would fit.
HINTS = {"population_sd", "standard_error"}


def audit():
    done = subprocess.run(
        [PROGRAM, "audit", DEMO / "archive.csv", "--bench",
         DEMO / "scores.json", "--json"], capture_output=True, text=True)
    if done.returncode:
        sys.exit(done.stderr)
    return json.loads(done.stdout)["results"]


def complaints():
    with open(DATA / "truth.csv") as file:
        truth = {row["id"]: row for row in csv.DictReader(file)}
    results = audit()
    claims = {c["id"]: c for c in results["claims"]}
    if claims.keys() != truth.keys() or len(claims) != 48:
        yield f"other claims: {claims.keys() ^ truth.keys()}"
        return
    covered = judged = 0
    for name, row in truth.items():
        claim, real = claims[name], float(row["true_change"])
        found = set(claim["faults"]) - HINTS
        if found != ({row["slip"]} if row["slip"] else set()):
            yield f"{name}: planted {row['slip'] or 'nothing'}, found {found}"
        if claim["verdict"] == "beyond" and real == 0:
            yield f"{name}: beyond the scatter, but nothing changed"
        if claim["low"] is not None and not row["slip"]:
            judged += 1
            covered += claim["low"] <= real <= claim["high"]
            if (real >= 2 and claim["stated"]["n_before"] >= 5
                    and claim["verdict"] != "beyond"):
                yield f"{name}: a change of {real} is not seen"
    # 30 intervals of 95 %: fewer than 25 happen once in 600 archives
    if judged < 25 or covered < 25:
        yield f"{covered} of {judged} intervals hold the true change"
    if results["summary"]["claims"] != 48 or len(results["ranks"]) < 20:
        yield "summary or ranks are not whole"
    for rank in results["ranks"]:
        if not 1 <= rank["low"] <= rank["high"] <= rank["of"]:
            yield f"no place: {rank}"


def made_again():
    """The archive is what the script makes of its seed."""
    with tempfile.TemporaryDirectory() as folder:
        made = [pathlib.Path(folder) / name for name in ("a.csv", "t.csv")]
        subprocess.run([sys.executable, "-B", DATA / "make_archive.py", *made],
                       check=True)
        for path, kept in zip(made, (DEMO / "archive.csv", DATA / "truth.csv")):
            if path.read_bytes() != kept.read_bytes():
                yield f"{kept.name} is not what make_archive.py makes"


if __name__ == "__main__":
    bad = [*complaints(), *made_again()]
    print("\n".join(bad) if bad else "all slips found, nobody accused")
    sys.exit(1 if bad else 0)
