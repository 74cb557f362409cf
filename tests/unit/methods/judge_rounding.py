# SPDX-License-Identifier: GPL-3.0-or-later
"""judge_rounding.py PROGRAM: rounding to steps, by Python's decimal module."""

import random
import sys
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

import judging

rng = random.Random(9)
questions, wanted = [], []
for i in range(20000):
    step = Decimal(rng.choice(["0.1", "0.5", "0.25", "0.01", "1", "5", "0.2",
                               "0.05", "20"]))
    # half of them lie exactly between two steps
    value = (step * rng.randint(-4000, 4000) + step / 2 if i % 2 else
             Decimal(rng.randint(-10**6, 10**6)).scaleb(-rng.randint(0, 5)))
    ties = rng.randint(0, 1)
    steps = (value / step).quantize(
        Decimal(1), ROUND_HALF_EVEN if ties else ROUND_HALF_UP)
    questions.append(f"round {value} {step} {ties}")
    wanted.append(float(steps * step))
for question, got, want in zip(questions, judging.ask(questions), wanted):
    judging.close("round", question, got[0], want, 0)
print(len(questions), "roundings,", judging.bad, "disagreements")
sys.exit(judging.bad > 0)
