#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_panel.py PROGRAM RSCRIPT: the demo's panels against R (aov, lm, lme4),
the demo's files against the script that drew them, and the bench file that
panel keeps its pooled scatter in."""

import json
import math
import pathlib
import subprocess
import sys
import tempfile
import unittest

PROGRAM, RSCRIPT = sys.argv[1:3]
HERE = pathlib.Path(__file__).parent
DEMO = HERE.parents[1] / "src" / "cli" / "demo"
TIGHT = 1e-10   # mean squares in doubles on both sides
SEARCH = 2e-6   # lme4 stops its search there


def run(*words, **more):
    return subprocess.run([PROGRAM, *words], capture_output=True, text=True,
                          timeout=60, **more)


def results(*words, **more):
    done = run("panel", *words, "--json", **more)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)["results"]


def component(part, level):
    return next(c for c in part["components"] if c["level"] == level)


class AgainstR(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        said = subprocess.run([RSCRIPT, HERE / "judge_panel.R", DEMO],
                              check=True, capture_output=True, text=True)
        lines = (line.split() for line in said.stdout.splitlines())
        cls.judge = {name: float(value) for name, value in lines}

    def same(self, found, name, tolerance=TIGHT):
        wanted = self.judge[name]
        self.assertTrue(math.isclose(found, wanted, rel_tol=tolerance),
                        f"{name}: {found!r}, R says {wanted!r}")

    def test_map(self):
        part = results(DEMO / "hull-map.csv")
        self.same(component(part, "spot")["variance_raw"], "hull.spot")
        self.same(component(part, "repeat")["variance_raw"], "hull.repeat")
        self.same(part["mean"]["estimate"], "hull.mean")
        self.same(part["mean"]["low"], "hull.low")
        self.same(part["mean"]["high"], "hull.high")
        self.same(part["place"]["gradient"]["x"], "hull.x")
        self.same(part["place"]["gradient"]["y"], "hull.y", 1e-8)
        self.same(part["place"]["gradient"]["p"], "hull.p", 1e-9)

    def test_operators(self):
        part = results(DEMO / "operators.csv")
        for level in ("operator", "spot", "interaction", "repeat"):
            self.same(component(part, level)["variance_raw"], f"crew.{level}")
        self.same(part["mean"]["estimate"], "crew.mean")
        self.same(component(part, "spot")["sd"], "crew.lmer.spot", SEARCH)

    def test_sets(self):
        part = results(DEMO / "sets.csv")
        self.same(component(part, "panel")["variance_raw"], "sets.panel")
        self.same(part["bank"]["sd"], "sets.sd")
        self.same(part["bank"]["df"], "sets.df")
        self.same(part["bank"]["bartlett"]["p"], "sets.bartlett", 1e-9)

    def test_gaps(self):
        lines = (DEMO / "hull-map.csv").read_text("ascii").splitlines()
        for row in (50, 34, 33, 20, 8, 7, 2):
            del lines[row]
        with tempfile.TemporaryDirectory() as folder:
            file = pathlib.Path(folder, "gaps.csv")
            file.write_text("\n".join(lines) + "\n", "ascii")
            part = results(file)
        self.assertFalse(part["balanced"])
        self.same(component(part, "spot")["reml_sd"], "gaps.spot", SEARCH)
        self.same(component(part, "repeat")["reml_sd"], "gaps.repeat", SEARCH)
        self.same(part["reml"]["mean"]["estimate"], "gaps.mean", SEARCH)


class Files(unittest.TestCase):
    def test_demo_is_as_drawn(self):
        with tempfile.TemporaryDirectory() as folder:
            subprocess.run([sys.executable, "-B",
                            HERE / "demo-source" / "make_panels.py", folder],
                           check=True)
            for file in pathlib.Path(folder).iterdir():
                self.assertEqual(file.read_bytes(),
                                 (DEMO / file.name).read_bytes(), file.name)

    def test_speaks_of_the_set_apart(self):
        bank = results(DEMO / "sets.csv")["bank"]
        self.assertEqual([s["label"] for s in bank["of"] if s["apart"]], ["H11"])


class Bank(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.file = pathlib.Path(self.folder.name, "bench.json")

    def keep(self, *words):
        return run("panel", DEMO / "sets.csv", "--bank", self.file,
                   "--panel-type", "white hull", *words)

    def test_keeps_the_pool(self):
        done = self.keep("--date", "2026-03-14", "--meter", "shed meter")
        self.assertEqual(done.returncode, 0, done.stderr)
        entry, = json.loads(self.file.read_text("utf-8"))["scatter"]
        bank = results(DEMO / "sets.csv")["bank"]
        self.assertEqual((entry["panel_type"], entry["quantity"], entry["unit"],
                          entry["date"], entry["meter"]),
                         ("white hull", "gloss", "GU", "2026-03-14",
                          "shed meter"))
        self.assertEqual((entry["sd"], entry["df"], entry["sets"]),
                         (bank["sd"], bank["df"], bank["sets"]))

    def test_one_entry_of_a_kind(self):
        for date in ("2026-03-14", "2026-03-15"):
            self.assertEqual(self.keep("--date", date).returncode, 0)
        entry, = json.loads(self.file.read_text("utf-8"))["scatter"]
        self.assertEqual(entry["date"], "2026-03-15")

    def test_today(self):
        self.assertEqual(self.keep().returncode, 0)
        entry, = json.loads(self.file.read_text("utf-8"))["scatter"]
        self.assertRegex(entry["date"], r"^20\d\d-\d\d-\d\d$")

    def test_wrong_date(self):
        done = self.keep("--date", "14.3.2026")
        self.assertEqual(done.returncode, 2, done.stderr)
        self.assertIn("date", done.stderr)
        self.assertEqual(done.stdout, "")
        self.assertFalse(self.file.exists())

    def test_no_scatter(self):
        same = pathlib.Path(self.folder.name, "same.csv")
        same.write_text("panel,gloss (GU)\nA,80\nA,80\nB,81\nB,81\n", "ascii")
        done = run("panel", same, "--bank", self.file, "--panel-type", "x")
        self.assertEqual(done.returncode, 1, done.stderr)
        self.assertIn("no scatter to keep", done.stderr)
        self.assertFalse(self.file.exists())

    def test_something_else_is_left_alone(self):
        self.file.write_text("not a bench file", "ascii")
        done = self.keep("--date", "2026-03-14")
        self.assertEqual(done.returncode, 3, done.stderr)
        self.assertEqual(self.file.read_text("ascii"), "not a bench file")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
