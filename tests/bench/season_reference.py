#!/usr/bin/env python3
"""Solve programs written by `season_bench HORSES WEEKS FEEDS FOLDER` with Clp and HiGHS.

Prints cost and seconds of each method: the program clp, where it is installed, and
HiGHS by way of scipy, simplex and interior point.
"""

import re
import shutil
import subprocess
import sys
import time

import numpy
from scipy.optimize import linprog
from scipy.sparse import csr_matrix, vstack

LIMIT_SECONDS = 120


def sections(path):
    """The lines of a free MPS file as (section, fields)."""
    section = ""
    with open(path, encoding="utf-8") as file:
        for line in file:
            if line.startswith("*") or not line.strip():
                continue
            if line[0] != " ":
                section = line.split()[0]
                continue
            yield section, line.split()


def arrays_of(path):
    """The program as linprog takes it."""
    rows, types, columns = {}, [], {}
    objective, entries, costs = None, [], {}
    right, ranges, bounds = {}, {}, {}
    for section, words in sections(path):
        if section == "ROWS":
            if words[0] == "N":
                objective = words[1]
            else:
                rows[words[1]] = len(types)
                types.append(words[0])
        elif section == "COLUMNS":
            column = columns.setdefault(words[0], len(columns))
            for row, value in zip(words[1::2], words[2::2]):
                if row == objective:
                    costs[column] = float(value)
                else:
                    entries.append((rows[row], column, float(value)))
        elif section in ("RHS", "RANGES"):
            store = right if section == "RHS" else ranges
            store.update({r: float(v) for r, v in zip(words[1::2], words[2::2])})
        elif section == "BOUNDS":
            number = float(words[3]) if len(words) > 3 else None
            bounds.setdefault(words[2], {})[words[0]] = number
    lower = numpy.full(len(types), -numpy.inf)
    upper = numpy.full(len(types), numpy.inf)
    for name, row in rows.items():
        value, span = right.get(name, 0.0), ranges.get(name)
        if types[row] in "EL":
            upper[row] = value
        if types[row] in "EG":
            lower[row] = value
        if span is not None and types[row] == "G":
            upper[row] = value + span
        if span is not None and types[row] == "L":
            lower[row] = value - span
    i, j, v = zip(*entries)
    matrix = csr_matrix((v, (i, j)), shape=(len(types), len(columns)))
    limits = []
    for name in columns:
        given = bounds.get(name, {})
        if "FX" in given:
            limits.append((given["FX"], given["FX"]))
        else:
            limits.append((given.get("LO", 0.0), given.get("UP")))
    equal = lower == upper
    below, above = ~equal & numpy.isfinite(upper), ~equal & numpy.isfinite(lower)
    return {
        "c": [costs.get(k, 0.0) for k in range(len(columns))],
        "A_ub": vstack([matrix[below], -matrix[above]]),
        "b_ub": numpy.concatenate([upper[below], -lower[above]]),
        "A_eq": matrix[equal],
        "b_eq": lower[equal],
        "bounds": limits,
    }


def main():
    if len(sys.argv) < 2:
        sys.exit("usage: season_reference.py FILE..., written by season_bench")
    for path in sys.argv[1:]:
        for method in ("-primalsimplex", "-dualsimplex", "-barrier"):
            if not shutil.which("clp"):
                break
            told = subprocess.run(
                ["clp", path, "-seconds", str(LIMIT_SECONDS), method],
                capture_output=True, text=True, check=False).stdout
            found = re.findall(r"Optimal objective (\S+) .* time (\S+),", told)
            print(path, "clp", method, *(found[-1] if found else ["no optimum"]))
        arguments = arrays_of(path)
        for method in ("highs-ds", "highs-ipm"):
            start = time.perf_counter()
            result = linprog(**arguments, method=method, options={"time_limit": LIMIT_SECONDS})
            print(path, method, result.fun, f"{time.perf_counter() - start:.2f}")


if __name__ == "__main__":
    main()
