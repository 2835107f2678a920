"""Times `haymow batch`: records a second and core, two jobs against one, and memory.

    python3 tests/bench/batch_bench.py --program build/bench/scenarios/haymow
        [--count 20000] [--seed N] [--full-count 500] [--million]

Reading and writing are included: records come from a file and answers go to one. The
time of one job is given by the clock and by the processor; on a machine with other work
only the second says much. Beside it what Clp takes for some of the same rations, written by
`haymow ration --write-program`: the solve alone, of a program in memory, without
reading, needs, certificate or writing. solver_bench sets the solves side by side.
"""

import argparse
import ctypes
import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile
import time

from batch_records import records

base = """
money: GBP
forage:
  - {feed: "meadow hay, average", name: hay, price: 180 per tonne, waste: 8 %}
  - {feed: oat straw, price: 110 per tonne, waste: 10 %}
market:
  - {feed: alfalfa chaff, price: 15.50 per 15 kg bag}
  - {feed: "sugar beet pulp, unmolassed", name: beet pulp, price: 14.20 per 20 kg bag}
  - {feed: "oats, rolled", name: oats, price: 11.60 per 20 kg bag}
  - {feed: "barley, flaked", price: 14.80 per 20 kg bag}
  - {feed: soya bean meal, price: 16.50 per 20 kg bag}
  - {feed: "linseed, micronised", price: 29.00 per 20 kg bag}
  - {feed: "vegetable oil, rapeseed", price: 13.80 per 5 kg bag}
  - {feed: stud cubes, price: 13.60 per 20 kg bag}
  - {feed: balancer pellet, price: 28.00 per 20 kg bag}
  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}
  - {feed: limestone flour, price: 6.50 per 3 kg tub}
  - {feed: salt, price: 11.00 per 25 kg bag}
"""


def timed(program, folder, *words):
    """Seconds by the clock and by the processor, and the most memory, MB."""
    begin = time.perf_counter()
    with subprocess.Popen([program, "batch", folder / "records.jsonl", "--base",
                           folder / "base.yaml", "--force", "-q", *words]) as process:
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in (0, 1):
        sys.exit(f"ended with {process.returncode}")
    return time.perf_counter() - begin, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def write_records(folder, seed, count):
    with (folder / "records.jsonl").open("w", encoding="utf-8") as out:
        for line in records(seed, count):
            print(line, file=out)


def clp_times(program, folder, seed, count):
    """Clp's dual simplex on the same rations: seconds of the solves alone, checked."""
    try:
        clp = ctypes.CDLL("libClp.so.1")
    except OSError:
        print("Clp: not here (Debian's coinor-libclp1)")
        return
    clp.Clp_newModel.restype = ctypes.c_void_p
    clp.Clp_objectiveValue.restype = ctypes.c_double
    horses = [json.loads(line)["horses"][0] for line in records(seed, count)]
    scenario = folder / "all.yaml"
    listed = "".join(f"  - {json.dumps(horse)}\n" for horse in horses)
    scenario.write_text(f"{base}horses:\n{listed}", encoding="utf-8")
    told = subprocess.run([program, "ration", scenario, "--write-program", folder / "p.mps",
                           "--format", "json"], capture_output=True, check=False)
    took = 0.0
    solved = 0
    for horse in json.loads(told.stdout)["horses"]:
        if horse["status"] != "found":
            continue
        model = ctypes.c_void_p(clp.Clp_newModel())
        clp.Clp_setLogLevel(model, 0)
        path = str(folder / f"p-{horse['name']}.mps").encode("utf-8")
        if clp.Clp_readMps(model, path, 1, 0) != 0:
            sys.exit(f"Clp cannot read {path}")
        begin = time.perf_counter()
        clp.Clp_dual(model, 0)
        took += time.perf_counter() - begin
        cost = clp.Clp_objectiveValue(model)
        if abs(cost - horse["cost_per_day"]) > 1e-6 * cost:
            sys.exit(f"{horse['name']}: {horse['cost_per_day']} a day, by Clp {cost}")
        clp.Clp_deleteModel(model)
        solved += 1
    print(f"Clp on {solved} of these rations, the solve alone: {took / solved * 1e6:.0f} us; "
          "all costs agree")


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--program", type=pathlib.Path, required=True)
    arguments.add_argument("--count", type=int, default=20_000)
    arguments.add_argument("--full-count", type=int, default=500)
    arguments.add_argument("--seed", type=int, default=None)
    arguments.add_argument("--million", action="store_true")
    asked = arguments.parse_args()
    program = asked.program.resolve()
    seed = random.SystemRandom().randrange(1 << 32) if asked.seed is None else asked.seed
    print(f"seed {seed}")
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        (folder / "base.yaml").write_text(base, encoding="utf-8")
        write_records(folder, seed, asked.count)
        one = []
        for _ in range(3):
            for jobs in ("1", "2"):
                clock, cpu, memory = timed(program, folder, "--jobs", jobs, "-o",
                                           folder / f"o{jobs}.jsonl")
                print(f"{jobs} jobs: {asked.count / clock:.0f} a second by the clock, "
                      f"{asked.count / cpu:.0f} by the processor, {memory:.0f} MB")
                if jobs == "1":
                    one.append(clock)
                else:
                    print(f"two jobs are {one[-1] / clock:.2f} times as fast as one")
        if (folder / "o1.jsonl").read_bytes() != (folder / "o2.jsonl").read_bytes():
            sys.exit("the answers of one job and two differ")
        write_records(folder, seed, asked.full_count)
        clock, cpu, memory = timed(program, folder, "--full", "--jobs", "1", "-o",
                                   folder / "full.jsonl")
        print(f"--full: {asked.full_count / clock:.0f} a second by the clock, "
              f"{asked.full_count / cpu:.0f} by the processor, {memory:.0f} MB")
        clp_times(program, folder, seed, 200)
        if asked.million:
            write_records(folder, seed, 1_000_000)
            clock, cpu, memory = timed(program, folder, "--jobs", "2", "-o", "/dev/null")
            print(f"a million records: {clock:.0f} s, {memory:.0f} MB")


if __name__ == "__main__":
    main()
