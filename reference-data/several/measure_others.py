# SPDX-License-Identifier: GPL-3.0-or-later
"""How far SciPy's studentized_range is from quadruple precision."""
import csv
from scipy.stats import studentized_range
worst = (0.0,)
for row in csv.DictReader(open("studentised_range.csv")):
    df = float(row["df"])
    p = studentized_range.sf(float(row["q"]), int(row["groups"]), df)
    worst = max(worst, (abs(p - float(row["upper"])), row["groups"], row["df"], row["q"]))
print("worst absolute", worst)
