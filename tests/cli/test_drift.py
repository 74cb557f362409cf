#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_drift.py PROGRAM RSCRIPT: the demo's log against R (lm, filter), and the
inputs that drift puts into a bench file."""

import json
import math
import pathlib
import subprocess
import sys
import tempfile
import unittest

PROGRAM, RSCRIPT = sys.argv[1:3]
HERE = pathlib.Path(__file__).parent
LOG = HERE.parents[1] / "src" / "cli" / "demo" / "tile-log.csv"
TIGHT = 1e-9   # R's lm works on the dates themselves, some 20,000 days
KNOWN = ("--assigned", "92.4", "--assigned-u", "0.3", "--assigned-k", "2")


def run(*words):
    return subprocess.run([PROGRAM, "drift", *map(str, words)], timeout=60,
                          capture_output=True, text=True)


class AgainstR(unittest.TestCase):
    def test_newest_stretch(self):
        done = run(LOG, "--json")
        log = json.loads(done.stdout)["results"]["log"]
        said = subprocess.run([RSCRIPT, HERE / "judge_drift.R", LOG,
                               log["fence"]], check=True, capture_output=True,
                              text=True).stdout
        judge = {name: float(value) for name, value in
                 (line.split() for line in said.splitlines())}
        newest = log["days"][-log["stretches"][-1]["days"]:]
        found = {"mean": log["charts"]["centre"],
                 "slope": log["slope_per_month"], "slope_low": log["slope_low"],
                 "slope_high": log["slope_high"], "slope_p": log["slope_p"],
                 "sd": log["sd_about_line"],
                 "day_sd": log["charts"]["day_sd"]}
        found |= {f"average{i}": day["moving_average"]
                  for i, day in enumerate(newest, 1)}
        self.assertEqual(found.keys(), judge.keys())
        for name, value in judge.items():
            self.assertTrue(math.isclose(found[name], value, rel_tol=TIGHT),
                            f"{name} is {found[name]}, R says {value}")


class IntoBench(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.bench = pathlib.Path(folder.name) / "bench.json"

    def inputs(self):
        return {one["name"]: one
                for one in json.loads(self.bench.read_text("utf-8"))["inputs"]}

    def test_new_file_then_replaced(self):
        done = run(LOG, *KNOWN, "--name", "tile", "--into", self.bench, "--json")
        self.assertEqual(done.returncode, 0, done.stderr)
        log = json.loads(done.stdout)["results"]["log"]
        first = self.inputs()
        self.assertEqual(first.keys(), {"tile_bias", "tile_drift"})
        bias, drift = first["tile_bias"], first["tile_drift"]
        self.assertEqual((bias["kind"], bias["value"], bias["uncertainty"],
                          bias["df"], bias["unit"], bias["shared"]),
                         ("t", log["bias"], log["bias_uncertainty"],
                          log["bias_df"], "GU", True))
        self.assertEqual((drift["kind"], drift["value"], drift["half_width"]),
                         ("rectangular", 0, log["drift_half_width"]))
        done = run(LOG, "--assigned", "92.3", "--name", "tile", "--into",
                   self.bench)
        self.assertEqual(done.returncode, 0, done.stderr)
        again = self.inputs()
        self.assertEqual(len(again), 2)
        self.assertAlmostEqual(again["tile_bias"]["value"],
                               bias["value"] + 0.1, places=12)

    def test_budget_takes_them(self):
        bench = {"version": 1,
                 "inputs": [{"name": "shown", "unit": "GU", "kind": "readings",
                             "readings": [80.1, 80.3, 80.2], "step": 0.1}],
                 "quantities": [{"name": "gloss", "unit": "GU",
                                 "model": "shown"}]}
        self.bench.write_text(json.dumps(bench), "utf-8")
        self.assertEqual(run(LOG, *KNOWN, "--name", "tile", "--into",
                             self.bench).returncode, 0)
        kept = json.loads(self.bench.read_text("utf-8"))
        kept["quantities"][0]["model"] = "shown - tile_bias + tile_drift"
        self.bench.write_text(json.dumps(kept), "utf-8")
        done = subprocess.run([PROGRAM, "budget", self.bench, "--json"],
                              capture_output=True, text=True, timeout=60)
        self.assertEqual(done.returncode, 0, done.stderr)
        made = json.loads(done.stdout)["results"]["quantities"][0]
        bias, drift = self.inputs()["tile_bias"], self.inputs()["tile_drift"]
        shown = next(i for i in made["inputs"] if i["name"] == "shown")
        self.assertAlmostEqual(made["estimate"], 80.2 - bias["value"],
                               places=10)
        wanted = math.hypot(shown["standard_uncertainty"], bias["uncertainty"],
                            drift["half_width"] / math.sqrt(3))
        self.assertTrue(math.isclose(made["standard_uncertainty"], wanted,
                                     rel_tol=1e-12))

    def test_damaged_bench_is_left_alone(self):
        self.bench.write_text("{", "utf-8")
        done = run(LOG, *KNOWN, "--name", "tile", "--into", self.bench)
        self.assertEqual((done.returncode, done.stdout), (3, ""))
        self.assertEqual(self.bench.read_text("utf-8"), "{")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
