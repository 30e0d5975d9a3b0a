"""A straight line of log10 N on log10 S with numpy.polyfit, on one thread. Arguments: a file of doubles (S of all rows, then N), runs.

Prints JSON: milliseconds of each run, slope and intercept with their standard errors.
"""
import json
import os
import sys
import time

os.environ["OMP_NUM_THREADS"] = os.environ["OPENBLAS_NUM_THREADS"] = "1"
import numpy as np

columns = np.fromfile(sys.argv[1])
rows = len(columns) // 2
S, N = columns[:rows], columns[rows:]
times = []
for run in range(int(sys.argv[2])):
    begun = time.perf_counter()
    coefficients, covariance = np.polyfit(np.log10(S), np.log10(N), 1, cov=True)
    times.append(1e3 * (time.perf_counter() - begun))
print(json.dumps({"times": times, "slope": coefficients[0], "intercept": coefficients[1], "errors": list(np.sqrt(np.diag(covariance)))}))
