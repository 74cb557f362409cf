#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_killed.py PROGRAM INTERPOSE: killed at random moments, 200 times, while
a pipe feeds it slowly and in pieces: whatever it had shown as taken is in the
file, whatever is in the file was fed, and the next run goes on."""

import json
import os
import random
import signal
import threading
import time

from bench import Bench, begin, main, take

KILLS, RUNS_A_FILE, SEED = 200, 8, 20


class Feeder(threading.Thread):
    """Reading k is 100 + k/10: no two are alike. Lines come in pieces."""

    def __init__(self, pipe, first, pick):
        super().__init__(daemon=True)
        self.pipe, self.next, self.pick = pipe, first, pick

    def run(self):
        try:
            while True:
                line = f"{100 + self.next / 10:.1f}\n".encode()
                cut = self.pick.randrange(len(line))
                for piece in (line[:cut], line[cut:]):
                    os.write(self.pipe, piece)
                    time.sleep(self.pick.choice((0, 0.0002, 0.001)))
                self.next += 1
        except OSError:
            pass


def rows(data):
    """The readings in whole lines of the file."""
    whole = data[:data.rfind(b"\n") + 1].decode().splitlines()
    return [line.split(",")[1] for line in whole[1:] if line[0] != "#"]


class Killed(Bench):
    def one_run(self, run, first, pick):
        words = ["--keep", self.kept, "--json"] + ["--resume"] * (run > 0)
        with begin(*words) as process:
            feeder = Feeder(process.stdin.fileno(), first, pick)
            feeder.start()
            time.sleep(pick.uniform(0.001, 0.03))
            process.send_signal(signal.SIGKILL)
            shown = process.stdout.read()
            said = process.stderr.read()
            process.wait(60)
            process.stdin.close()
            feeder.join(60)
        self.assertEqual(said, b"")
        self.assertEqual(process.returncode, -signal.SIGKILL)
        return [json.loads(line) for line in
                shown[:shown.rfind(b"\n") + 1].splitlines()]

    def test_nothing_shown_is_lost(self):
        pick, kills, taken, most = random.Random(SEED), 0, 0, 0
        while kills < KILLS:
            acknowledged = []
            for run in range(RUNS_A_FILE):
                begun = os.path.exists(self.kept)
                before = rows(self.read()) if begun else []
                shown = self.one_run(begun, len(before), pick)
                kills += 1
                acknowledged = before + [item["reading"] for item in shown
                                         if item["event"] == "reading"]
                found = rows(self.read()) if os.path.exists(self.kept) else []
                self.assertEqual(found[:len(acknowledged)], acknowledged)
                self.assertLessEqual(len(found), len(acknowledged) + 1)
                self.assertEqual(found, [f"{100 + k / 10:.1f}"
                                         for k in range(len(found))])
                most = max(most, len(found))
            done = take("--keep", self.kept, "--resume", typed=b"99.5\n")
            self.assertIn(done.returncode, (0, 1), done.stderr)
            self.assertEqual(rows(self.read()), found + ["99.5"])
            os.remove(self.kept)
            taken += len(found)
        # Else nothing was tested.
        self.assertGreater(taken, KILLS)
        print(f"{kills} kills, {taken} readings kept, up to {most} in a file")


if __name__ == "__main__":
    main()
