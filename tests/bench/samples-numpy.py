"""The life of worksheets/rotating-bending.md, as the sheet stands unedited, by samples with numpy on one thread.

Reads from standard input what the sheet itself holds, as JSON: {"count", "runs", "inputs": {id: {"value", "parts": [[distribution,
standard uncertainty, degrees of freedom or null, name of a cause that several inputs have in common or null]]}}, "given": {symbol: value}}.
Prints JSON: milliseconds of each run, and mean, standard deviation and 95 % interval of the last.
"""
import json
import os
import sys
import time

os.environ["OMP_NUM_THREADS"] = os.environ["OPENBLAS_NUM_THREADS"] = "1"
import numpy as np

asked = json.load(sys.stdin)
count, given = asked["count"], asked["given"]
MM, MPA = 1e-3, 1e6


def drawn(random, entry, causes):
    column = np.full(count, float(entry["value"]))
    for distribution, u, freedom, cause in entry["parts"]:
        if cause is not None:
            if cause not in causes:
                causes[cause] = random.uniform(-np.sqrt(3), np.sqrt(3), count)
            column += u * causes[cause]
        elif distribution == "t":
            column += u * random.standard_t(freedom, count)
        elif distribution == "normal":
            column += random.normal(0, u, count)
        elif distribution == "rectangular":
            half = u * np.sqrt(3)
            column += random.uniform(-half, half, count)
        else:
            raise ValueError(distribution)
    return column


def life(random):
    causes = {}
    x = {name: drawn(random, entry, causes) for name, entry in asked["inputs"].items()}
    s_1, s_2, s_3, span, x_s, d, S_ut = (x[name] for name in ("s_1", "s_2", "s_3", "L", "x_s", "d", "S_ut"))
    W = x["F"] - x["F_0"]
    F_1 = given["k_F"] * W
    F_2 = W - F_1
    R_A = (F_1 * (s_2 + s_3) + F_2 * s_3) / span
    M_s = R_A * x_s - F_1 * np.maximum(x_s - s_1, 0) - F_2 * np.maximum(x_s - s_1 - s_2, 0)
    sigma_a = M_s * (d / 2) / (np.pi * d**4 / 64) + x["z_e"] * given["sigma_b"]
    K_f = 1 + given["q"] * (given["K_t"] - 1)
    # np.where works out both branches for all samples; a student's script would do so, too.
    k_b = np.minimum(1, np.where(d <= 51 * MM, 1.24 * (d / MM) ** -0.107, 1.51 * (d / MM) ** -0.157))
    S_e0 = x["c_e"] * np.minimum(0.5 * S_ut, 700 * MPA)
    S_e = given["c_a"] * given["k_a"] * k_b * given["k_c"] * given["k_d"] * given["k_e"] * S_e0
    s = S_ut / MPA
    f_u = x["r_f"] * np.where((given["N_e"] > 1e6) | (S_ut < 483 * MPA), 0.9, 1.06 - 4.1e-4 * s + 1.5e-7 * s**2)
    B = (3 - np.log10(given["N_e"])) / (np.log10(f_u * s) - np.log10(S_e / MPA))
    A = 3 + given["c_l"] - B * np.log10(f_u * s)
    return 10 ** (A + B * np.log10(K_f * sigma_a / MPA))


times = []
for run in range(asked["runs"]):
    begun = time.perf_counter()
    random = np.random.default_rng(run)
    N_f = life(random)
    low, high = np.percentile(N_f, [2.5, 97.5])
    found = {"mean": float(N_f.mean()), "u": float(N_f.std(ddof=1)), "low": float(low), "high": float(high)}
    times.append(1e3 * (time.perf_counter() - begun))
print(json.dumps({"numpy": np.__version__, "times": times, **found}))
