#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""judge_deviates.py PROGRAM: the streams against Philox4x64-10 written out from
its paper, the ziggurat against its own equations, and a million deviates of
every kind against their distributions: Kolmogorov-Smirnov, counts in both far
tails, and neighbours. Seeds are fixed, so the answer is always the same."""

import subprocess
import sys

import numpy as np
from scipy import special, stats

PROGRAM = sys.argv[1]
faults = []


def run(*arguments, kind=np.float64):
    out = subprocess.run([PROGRAM, *arguments], stdout=subprocess.PIPE,
                         check=True).stdout
    return np.frombuffer(out, dtype=kind)


def check(holds, words):
    if not holds:
        faults.append(words)


# --- Philox (Salmon et al. 2011): four words, ten rounds ---------------------

M = (0xD2E7470EE14C6C93, 0xCA5A826395121157)
W = (0x9E3779B97F4A7C15, 0xBB67AE8584CAA73B)
WORD = (1 << 64) - 1


def philox(counter, key):
    c, k = list(counter), list(key)
    for _ in range(10):
        a, b = M[0] * c[0], M[1] * c[2]
        c = [(b >> 64) ^ c[1] ^ k[0], b & WORD,
             (a >> 64) ^ c[3] ^ k[1], a & WORD]
        k = [(k[0] + W[0]) & WORD, (k[1] + W[1]) & WORD]
    return c


rows = run("streams", kind=np.uint64).reshape(-1, 13)
check(len(rows) == 5, "five streams")
for row in rows.tolist():
    seed, stream, block = row[:3]
    wanted = sum((philox((i, block, stream, 0), (seed, 0)) for i in range(3)),
                 [])[:10]
    check(row[3:] == wanted, f"stream {seed} {stream} {block}")
# The authors' own list of known answers (from memory): what is written out
# above against all three of them, the streams against the first.
for counter, key, wanted in (
        ((0,) * 4, (0,) * 2,
         [0x16554D9ECA36314C, 0xDB20FE9D672D0FDC,
          0xD7E772CEE186176B, 0x7E68B68AEC7BA23B]),
        ((WORD,) * 4, (WORD,) * 2,
         [0x87B092C3013FE90B, 0x438C3C67BE8D0224,
          0x9CC7D7C69CD777B6, 0xA09CAEBF594F0BA0]),
        ((0x243F6A8885A308D3, 0x13198A2E03707344,
          0xA4093822299F31D0, 0x082EFA98EC4E6C89),
         (0x452821E638D01377, 0xBE5466CF34E90C6C),
         [0xA528F45403E61D95, 0x38C72DBD566E9788,
          0xA5A1610E72FD18B5, 0x57BD43B5E52B7FE6])):
    check(philox(counter, key) == wanted, f"known answer of {counter[0]:x}")
check(rows[0, 3:7].tolist() == [0x16554D9ECA36314C, 0xDB20FE9D672D0FDC,
                                0xD7E772CEE186176B, 0x7E68B68AEC7BA23B],
      "known answer")

# --- The ziggurat: layers of one area, closed at the top ---------------------

z = run("ziggurat").reshape(2, -1)
edge, density = z
r = edge[1]
area = r * np.exp(-r * r / 2) + np.sqrt(np.pi / 2) * special.erfc(r / 2**.5)
check(abs(edge[0] * density[1] / area - 1) < 1e-14, "area of the lowest layer")
layers = edge[1:-1] * np.diff(density[1:])
check(np.all(abs(layers / area - 1) < 1e-12), "areas of the layers")
check(np.all(abs(density[1:-1] - np.exp(-edge[1:-1]**2 / 2)) < 1e-14),
      "densities at the edges")
check(edge[-1] == 0 and density[-1] == 1, "the top")

# --- A million of each kind --------------------------------------------------

KINDS = [("symmetric", 0, stats.uniform(-1, 2)),
         ("normal", 0, stats.norm()),
         ("arcsine", 0, stats.arcsine(-1, 2))]
# sqrt(df / chi-square(df)) below x: chi-square above df / x^2.
KINDS += [("factor", df, None) for df in (0.5, 1.5, 3, 9, 1e6)]

for name, df, law in KINDS:
    x = run(name, repr(df))
    check(len(x) == 1000000 and np.all(np.isfinite(x)), f"{name} {df}: count")
    cdf = law.cdf(x) if law else stats.chi2.sf(df / x**2, df)
    p = stats.kstest(cdf, "uniform").pvalue
    check(p > 1e-3, f"{name} {df}: Kolmogorov-Smirnov p {p:.2g}")
    upper = law.sf(x) if law else stats.chi2.cdf(df / x**2, df)
    for tail, side in ((cdf, "lower"), (upper, "upper")):
        for share in (1e-2, 1e-4, 1e-5):
            count = np.sum(tail < share)
            p = stats.binomtest(int(count), len(x), share).pvalue
            check(p > 1e-3, f"{name} {df}: {side} tail {share}: {count}")
    lag = np.corrcoef(cdf[:-1], cdf[1:])[0, 1]
    check(abs(lag) < 4 / len(x)**.5, f"{name} {df}: neighbours {lag:.2g}")

for fault in faults:
    print(fault)
print(f"{len(KINDS)} kinds of deviates, {len(faults)} faults")
sys.exit(1 if faults else 0)
