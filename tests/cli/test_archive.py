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
HINTS = {"population_sd", "standard_error", "cut_off", "other_n"}


# Rows by hand, readings in steps of 0.1: what is found of them. The scatters were
# counted out by shed_archive.sd_possible.
BY_HAND = """
id,before mean,after mean,before n,after n,before sd,after sd,change,points
"right",83.10,84.10,3,3,0.10,0.17,1.00,2
"mean_before_impossible cut_off",83.28,84.00,7,7,,,0.72,1.5
"mean_after_impossible other_n",83.00,83.26,4,4,,,0.26,0.5
"mean_before_impossible",83.22,84.00,2,2,,,0.78,1.5
"scatter_before_impossible",83.10,84.10,3,3,0.05,0.17,1.00,2
"scatter_before_impossible population_sd",83.10,84.10,3,3,0.08,0.17,1.00,2
"scatter_after_impossible standard_error",83.10,84.10,3,3,0.10,0.06,1.00,2
"scatter_before_impossible cut_off",83.10,84.10,3,3,0.19,0.17,1.00,2
"scatter_before_impossible other_n",83.10,84.10,3,3,0.18,0.17,1.00,2
"change_does_not_follow",83.10,84.10,3,3,0.10,0.17,1.50,3
"change_sign_reversed",83.10,84.10,3,3,0.10,0.17,-1.00,2
"change_cut_off",83.12,84.10,5,3,,,0.9,2
"points_do_not_follow",83.10,84.10,3,3,0.10,0.17,1.00,4.5
"points_cut_off",83.10,84.20,3,3,0.10,0.17,1.10,1.9
""".strip() + "\n"


def audit(archive=DEMO / "archive.csv", *more):
    done = subprocess.run(
        [PROGRAM, "audit", archive, "--bench", DEMO / "scores.json", "--json",
         *more], capture_output=True, text=True)
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


def by_hand():
    with tempfile.NamedTemporaryFile("w", suffix=".csv") as file:
        file.write(BY_HAND)
        file.flush()
        claims = audit(file.name, "--step", "0.1", "--rule", "gloss gain")
    for claim in claims["claims"]:
        wanted = set(claim["id"].split()) - {"right"}
        if set(claim["faults"]) != wanted:
            yield f"line {claim['line']}: {claim['faults']}, not {wanted}"
    if len(claims["claims"]) != 14:
        yield "not all rows by hand were read"


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
    bad = [*complaints(), *by_hand(), *made_again()]
    print("\n".join(bad) if bad else "all slips found, nobody accused")
    sys.exit(1 if bad else 0)
