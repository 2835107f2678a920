"""Draws horses of every class as the records of a batch: one JSON object a line.

    python3 tests/bench/batch_records.py --count 1000 [--seed N] > records.jsonl

The seed is printed on standard error, so that a draw can be had again.
"""

import argparse
import json
import random
import sys

works = ["none", "light", "moderate", "heavy", "very heavy"]


def horse(draw, number):
    """A horse as a scenario file has it: weight, class, and now and then a state."""
    out = {"name": f"horse {number}", "bodyweight": f"{draw.randint(300, 700)} kg"}
    kind = draw.random()
    if kind < 0.70:
        out["work"] = draw.choices(works, [35, 30, 20, 10, 5])[0]
        if out["work"] == "none" and draw.random() < 0.25:
            out["health"] = ["laminitis-prone"]
        elif draw.random() < 0.08:
            out["health"] = ["gastric ulcers"]
        if draw.random() < 0.2:
            out["energy factor"] = round(draw.uniform(0.9, 1.1), 2)
    elif kind < 0.80:
        out["lactating"] = f"month {draw.randint(1, 6)}"
    elif kind < 0.90:
        out["pregnant"] = f"month {draw.randint(5, 11)}"
    else:
        grown = draw.randint(400, 650)
        age = draw.randint(6, 24)
        out["age"] = f"{age} months"
        out["mature weight"] = f"{grown} kg"
        out["bodyweight"] = f"{grown * (0.45 + 0.42 * (age - 6) / 18):.0f} kg"
    if draw.random() < 0.5:
        out["meals"] = draw.randint(2, 3)
    return out


def records(seed, count):
    draw = random.Random(seed)
    for number in range(1, count + 1):
        yield json.dumps({"key": f"K{number:07}", "horses": [horse(draw, number)]})


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--count", type=int, default=1000)
    arguments.add_argument("--seed", type=int, default=None)
    asked = arguments.parse_args()
    seed = random.SystemRandom().randrange(1 << 32) if asked.seed is None else asked.seed
    print(f"seed {seed}", file=sys.stderr)
    for line in records(seed, asked.count):
        print(line)


if __name__ == "__main__":
    main()
