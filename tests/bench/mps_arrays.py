#!/usr/bin/env python3
"""Free MPS as the arrays that scipy takes, and HiGHS on them.

    mps_arrays.py keep PROGRAM.mps ARRAYS.npz     reads the one, writes the other
    mps_arrays.py solve ARRAYS.npz highs-ipm      solves, prints one line of JSON

Two steps, so that the memory of the second is HiGHS's and scipy's and not the reader's.
"""

import array
import json
import sys
import time

import numpy
from scipy.optimize import linprog
from scipy.sparse import csr_matrix, vstack


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


class Program:
    """A program to be minimised, as far as its file has been read."""

    def __init__(self):
        self.rows, self.types, self.columns = {}, [], {}
        self.objective = None
        self.costs, self.right, self.ranges, self.bounds = {}, {}, {}, {}
        self.row, self.column = array.array("i"), array.array("i")
        self.value = array.array("d")

    def take(self, section, words):
        """One line of the file."""
        if section == "ROWS":
            if words[0] == "N":
                self.objective = words[1]
            else:
                self.rows[words[1]] = len(self.types)
                self.types.append(words[0])
        elif section == "COLUMNS":
            column = self.columns.setdefault(words[0], len(self.columns))
            for row, value in zip(words[1::2], words[2::2]):
                if row == self.objective:
                    self.costs[column] = float(value)
                else:
                    self.row.append(self.rows[row])
                    self.column.append(column)
                    self.value.append(float(value))
        elif section in ("RHS", "RANGES"):
            store = self.right if section == "RHS" else self.ranges
            store.update({r: float(v) for r, v in zip(words[1::2], words[2::2])})
        elif section == "BOUNDS":
            number = float(words[3]) if len(words) > 3 else None
            self.bounds.setdefault(words[2], {})[words[0]] = number
        elif section not in ("NAME", "OBJSENSE", "ENDATA"):
            sys.exit(f"an MPS section that is not known here: {section}")

    def row_bounds(self):
        """Lower and upper, one a row."""
        lower = numpy.full(len(self.types), -numpy.inf)
        upper = numpy.full(len(self.types), numpy.inf)
        for name, row in self.rows.items():
            kind, value = self.types[row], self.right.get(name, 0.0)
            if kind in "EL":
                upper[row] = value
            if kind in "EG":
                lower[row] = value
            if name in self.ranges and kind == "E":
                sys.exit(f"a range of an equation is not read here: {name}")
            if name in self.ranges and kind == "G":
                upper[row] = value + abs(self.ranges[name])
            if name in self.ranges and kind == "L":
                lower[row] = value - abs(self.ranges[name])
        return lower, upper

    def column_bounds(self):
        """Lower and upper, one a column."""
        bounds = numpy.empty((len(self.columns), 2))
        for name, column in self.columns.items():
            given = self.bounds.get(name, {})
            unknown = set(given) - {"FX", "LO", "UP"}
            if unknown:
                sys.exit(f"a bound that is not read here: {unknown} of {name}")
            if "FX" in given:
                bounds[column] = given["FX"], given["FX"]
            else:
                bounds[column] = given.get("LO", 0.0), given.get("UP", numpy.inf)
        return bounds


def keep(source, target):
    """Writes the program in `source` as arrays."""
    program = Program()
    for section, words in sections(source):
        program.take(section, words)
    lower, upper = program.row_bounds()
    costs = numpy.zeros(len(program.columns))
    for column, cost in program.costs.items():
        costs[column] = cost
    numpy.savez(target, row=program.row, column=program.column, value=program.value,
                lower=lower, upper=upper, bounds=program.column_bounds(), costs=costs)


def arguments_of(path):
    """The program as linprog takes it."""
    with numpy.load(path) as held:
        lower, upper = held["lower"], held["upper"]
        matrix = csr_matrix((held["value"], (held["row"], held["column"])),
                            shape=(len(lower), len(held["costs"])))
        costs, bounds = held["costs"], held["bounds"]
    equal = lower == upper
    below, above = ~equal & numpy.isfinite(upper), ~equal & numpy.isfinite(lower)
    return {
        "c": costs,
        "A_ub": vstack([matrix[below], -matrix[above]], format="csr"),
        "b_ub": numpy.concatenate([upper[below], -lower[above]]),
        "A_eq": matrix[equal],
        "b_eq": lower[equal],
        "bounds": bounds,
    }


def solve(path, method):
    """Prints the cost and the processor's seconds of the call."""
    arguments = arguments_of(path)
    start = time.process_time()
    result = linprog(**arguments, method=method)
    print(json.dumps({"cost": result.fun if result.success else None,
                      "cpu_seconds": time.process_time() - start, "said": result.message}))


if __name__ == "__main__":
    if len(sys.argv) != 4 or sys.argv[1] not in ("keep", "solve"):
        sys.exit(__doc__)
    (keep if sys.argv[1] == "keep" else solve)(*sys.argv[2:])
