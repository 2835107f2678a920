#!/usr/bin/env python3
"""Solve a program written by `solver_bench --json=FILE` with HiGHS (scipy).

Prints HiGHS's cost and time beside haymow's; exits 1 when the costs differ by
more than 1e-6 relative. scipy's checks around the solver take longer than the
solver itself, so the same call on a program of one column is timed too and
taken off.
"""

import json
import statistics
import sys
import time

import numpy
from scipy.optimize import linprog

AGREEMENT = 1e-6


def arrays_of(program):
    """The program as linprog takes it: rows as A x <= b, bounds as pairs."""
    count = len(program["columns"])
    matrix, limits = [], []
    for row in program["rows"]:
        line = numpy.zeros(count)
        for column, coefficient in row["terms"]:
            line[column] = coefficient
        if row["upper"] is not None:
            matrix.append(line)
            limits.append(row["upper"])
        if row["lower"] is not None:
            matrix.append(-line)
            limits.append(-row["lower"])
    costs = [column["cost"] for column in program["columns"]]
    bounds = [(column["lower"], column["upper"]) for column in program["columns"]]
    return {"c": costs, "A_ub": numpy.array(matrix), "b_ub": limits, "bounds": bounds}


def timed(arguments, repeats=200):
    """The result, and the median time of a call [us]."""
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        result = linprog(**arguments, method="highs-ds", options={"presolve": False})
        times.append((time.perf_counter() - start) * 1e6)
    return result, statistics.median(times)


def main():
    if len(sys.argv) != 2:
        sys.exit("usage: highs_reference.py FILE, written by solver_bench --json=FILE")
    with open(sys.argv[1], encoding="utf-8") as file:
        program = json.load(file)
    result, whole = timed(arrays_of(program))
    one = {"c": [1.0], "A_ub": [[-1.0]], "b_ub": [-1.0], "bounds": [(0, None)]}
    _, overhead = timed(one)
    ours = program["haymow_microseconds"]
    print(f"seed {program['seed']}")
    print(f"haymow  cost {program['cost']:.9f}  {ours:.1f} us")
    print(f"HiGHS   cost {result.fun:.9f}  {whole:.1f} us, {whole - overhead:.1f} us without "
          f"the {overhead:.1f} us of a call on one column")
    print(f"ratio haymow to HiGHS without the call's own time: {ours / (whole - overhead):.2f}")
    if not result.success or abs(result.fun - program["cost"]) > AGREEMENT * max(1.0, result.fun):
        sys.exit("the costs differ")


if __name__ == "__main__":
    main()
