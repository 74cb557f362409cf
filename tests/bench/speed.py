#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Speed beside what a user would run instead: whole processes, medians of
interleaved rounds.

speed.py PROGRAM WORK_FOLDER [--quick] [JOB...]
  PROGRAM   the built scatterwise
  JOB       panels, sets, shuffled, one-set, grid, permutation, audit
            (default: all)

Peers: R with data.table, pandas and SciPy, GNU datamash, a small C program on
GSL; floors: cat and an empty process. A peer that is not installed is left out
and named. Prints a Markdown table; output of every command goes to a file, not
to a terminal.
"""
import os
import random
import resource
import shutil
import statistics
import subprocess
import sys
import time

HERE = os.path.join(os.path.dirname(os.path.abspath(__file__)), "peers")
PYTHON, RSCRIPT = "/usr/bin/python3", "/usr/bin/Rscript"


def peer(name):
    return os.path.join(HERE, name)


def write_sets(path, rows, sets, shuffled):
    """`rows` readings to one decimal in `sets` sets, grouped or shuffled."""
    source = random.Random(1)
    step = 7919 if shuffled else 1  # a prime: every row is visited once
    with open(path, "w") as file:
        file.write("set,reading\n")
        part = rows // sets
        for start in range(0, rows, 100000):
            file.write("".join(
                "%d,%.1f\n" % (i * step % rows // part, 80 + source.gauss(0, 2))
                for i in range(start, start + 100000)))


def write_ten(path):
    source = random.Random(2)
    with open(path, "w") as file:
        file.write("".join("%.1f\n" % source.gauss(84, 1) for _ in range(10)))


def write_grid(path):
    source = random.Random(3)
    with open(path, "w") as file:
        file.write("effect,sd\n")
        for _ in range(1000):
            file.write("%.3f,%.3f\n" % (source.uniform(0.2, 2), source.uniform(0.2, 1.5)))


def write_panels(path, gaps):
    """1,000 panels of 10 spots, 3 repeats; a seventh missing with `gaps`."""
    source = random.Random(5)
    with open(path, "w") as file:
        file.write("panel,spot,repeat,gloss\n")
        for panel in range(1000):
            own = 84 + source.gauss(0, 1)
            for spot in range(10):
                place = own + source.gauss(0, 0.5)
                for repeat in range(3):
                    value = place + source.gauss(0, 0.2)
                    if source.random() >= gaps:
                        file.write("P%d,%d,%d,%.1f\n" % (panel, spot + 1, repeat + 1, value))


def write_spots(path):
    """10,000 spots on a grid, 5 repeats."""
    source = random.Random(6)
    with open(path, "w") as file:
        file.write("x,y,repeat,gloss\n")
        for spot in range(10000):
            place = 84 + source.gauss(0, 0.5)
            for repeat in range(5):
                file.write("%d,%d,%d,%.1f\n" % (spot % 100 * 10, spot // 100 * 10, repeat + 1,
                                                place + source.gauss(0, 0.2)))


def write_sides(path, n):
    source = random.Random(4)
    with open(path, "w") as file:
        file.write("state,reading\n")
        for state, level in (("before", 80), ("after", 81)):
            for _ in range(n):
                file.write("%s,%.1f\n" % (state, source.gauss(level, 1)))


def write_claims(path, n):
    """`n` claims of 10 readings before and 10 after, most of them nothing."""
    source = random.Random(7)
    with open(path, "w") as file:
        file.write("id,%s\n" % ",".join("%s%d" % (side, i + 1) for side in "ba" for i in range(10)))
        for claim in range(n):
            level, change = 80 + source.gauss(0, 2), source.choice((0, 0, 0, 1.5))
            file.write("c%d,%s\n" % (claim, ",".join(
                "%.1f" % source.gauss(level + (change if i > 9 else 0), 1) for i in range(20))))


def built_peer(work, name):
    path = os.path.join(work, name)
    subprocess.run(["gcc", "-O2", "-o", path, peer(name + ".c"), "-lgsl",
                    "-lgslcblas", "-lm"], check=True)
    return path


def jobs(program, work, quick):
    """name -> (rounds, {label: command}); files are made on the way."""
    rows, sets = (1000000, 20000) if quick else (10000000, 200000)
    path = lambda name: os.path.join(work, name)
    found = {}

    def sets_job(name, shuffled):
        file = path(name + ".csv")
        if not os.path.exists(file):
            write_sets(file, rows, sets, shuffled)
        commands = {
            "scatterwise": [program, "readings", "--brief", "--csv", file],
            "R data.table": [RSCRIPT, peer("sets.R"), file],
            "pandas, SciPy": [PYTHON, peer("sets.py"), file],
            "datamash (no interval)": ["sh", "-c", "datamash -t, --header-in %s -g set count reading "
                                       "mean reading sstdev reading < %s" % ("-s" if shuffled else "", file)],
            "cat": ["cat", file]}
        found[name] = (3, commands)

    def one_set():
        file = path("ten.txt")
        write_ten(file)
        found["one-set"] = (41, {
            "scatterwise": [program, "readings", file],
            "C on GSL": [built_peer(work, "one_set"), file],
            "R": [RSCRIPT, peer("one_set.R"), file],
            "Python, SciPy": [PYTHON, peer("one_set.py"), file],
            "empty process": ["/bin/true"]})

    def grid():
        file = path("grid.csv")
        write_grid(file)
        found["grid"] = (11, {
            "scatterwise": [program, "plan", "--grid", file, "--power", "0.9"],
            "SciPy, vectorised": [PYTHON, peer("grid.py"), file],
            "R, loop": [RSCRIPT, peer("grid.R"), file],
            "empty process": ["/bin/true"]})

    def permutation():
        for n in (10, 12):
            file = path("sides-%d.csv" % n)
            write_sides(file, n)
            found["permutation %d v %d" % (n, n)] = (3, {
                "scatterwise": [program, "change", file, "--json"],
                "NumPy, enumeration": [PYTHON, peer("permutation_numpy.py"), file],
                "SciPy permutation_test": [PYTHON, peer("permutation_scipy.py"), file],
                "empty process": ["/bin/true"]})

    def audit():
        for n in (100000, 1000000):
            file = path("claims-%d.csv" % n)
            if not os.path.exists(file):
                write_claims(file, n)
            commands = {
                "scatterwise": [program, "audit", "--brief", "--before", "b*", "--after", "a*", file],
                "C on GSL": [built_peer(work, "audit"), file],
                "R, vectorised": [RSCRIPT, peer("audit.R"), file],
                "pandas, SciPy": [PYTHON, peer("audit.py"), file],
                "cat": ["cat", file]}
            found["audit %d" % n] = (5 if n < 1000000 else 3, commands)
            if n == 100000:
                found["audit %d, a loop" % n] = (1, {
                    "R, t.test row by row": [RSCRIPT, peer("audit.R"), file, "loop"]})

    def panels():
        file, gaps, spots = path("panels.csv"), path("gaps.csv"), path("spots.csv")
        write_panels(file, 0)
        write_panels(gaps, 1 / 7)
        write_spots(spots)
        found["each panel"] = (21, {
            "scatterwise": [program, "panel", file, "--each", "panel"],
            "scatterwise, JSON": [program, "panel", file, "--each", "panel", "--json"],
            "R, closed form": [RSCRIPT, peer("panels.R"), file, "closed"],
            "empty process": ["/bin/true"]})
        found["each panel, lme4"] = (1, {
            "R, lme4": [RSCRIPT, peer("panels.R"), file, "lme4"]})
        found["panels with gaps"] = (5, {
            "scatterwise": [program, "panel", gaps],
            "R, lme4": [RSCRIPT, peer("panels.R"), gaps, "one"],
            "R, nothing but lme4 loaded": [RSCRIPT, "-e", "library(lme4)"]})
        found["10,000 spots"] = (5, {"scatterwise": [program, "panel", spots]})

    return found, {"panels": panels, "sets": lambda: sets_job("sets", False),
                   "shuffled": lambda: sets_job("shuffled", True),
                   "one-set": one_set, "grid": grid,
                   "permutation": permutation, "audit": audit}


def usable(command):
    if command[0] == "sh":
        return shutil.which("datamash") is not None
    return shutil.which(command[0]) is not None


def run(command, output):
    """Seconds of one whole process, and its peak MiB where it is above this
    one's own, which the kernel counts in before the program is loaded."""
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    with open(output, "wb") as file:
        start = time.perf_counter()
        child = subprocess.Popen(command, stdout=file, stderr=subprocess.DEVNULL)
        _, status, used = os.wait4(child.pid, 0)
        seconds = time.perf_counter() - start
    child.returncode = status
    if status:
        return None
    return seconds, used.ru_maxrss / 1024 if used.ru_maxrss > own else 0


def measure(name, rounds, commands, work):
    times = {label: [] for label in commands if usable(commands[label])}
    for label in set(commands) - set(times):
        print("not installed: %s" % label, file=sys.stderr)
    for _ in range(rounds):
        for label in times:
            times[label].append(run(commands[label], os.path.join(work, "out")))
    for label, runs in times.items():
        runs = [r for r in runs if r]
        if not runs:
            print("| %s | %s | failed | |" % (name, label))
            continue
        peak = max(r[1] for r in runs)
        print("| %s | %s | %.4f | %s |" % (
            name, label, statistics.median(r[0] for r in runs),
            "%.0f" % peak if peak else "small"), flush=True)


def main():
    words = [w for w in sys.argv[1:] if not w.startswith("--")]
    program, work = words[:2]
    os.makedirs(work, exist_ok=True)
    found, makers = jobs(os.path.abspath(program), work, "--quick" in sys.argv)
    for name in words[2:] or list(makers):
        makers[name]()
    print("| job | program | median seconds | peak MiB |\n|---|---|---|---|")
    for name, (rounds, commands) in found.items():
        measure(name, rounds, commands, work)


main()
