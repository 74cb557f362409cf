# SPDX-License-Identifier: GPL-3.0-or-later
"""Mean, SD and 95 % interval of every set, by pandas and SciPy."""
import sys
import numpy as np
import pandas as pd
from scipy import stats

x = pd.read_csv(sys.argv[1])
r = x.groupby("set", sort=False)["reading"].agg(["size", "mean", "std"])
h = stats.t.ppf(0.975, r["size"] - 1) * r["std"] / np.sqrt(r["size"])
r["low"], r["high"] = r["mean"] - h, r["mean"] + h
r.to_csv(sys.stdout)
