#!/usr/bin/env python3
"""Times haymow on the winters of drawn yards against other solvers, side by side.

    /usr/bin/python3 tests/bench/season_rivals.py --bench build/bench/tests/bench/season_bench
        [--sizes 30x26x25,300x30x30/10] [--count 5 | --seeds 7,8] [--limit 120]
        [--rivals clp-primal,highs-ipm] [--npm-highs FOLDER] [--json FILE]
    /usr/bin/python3 tests/bench/season_rivals.py --again FILE      the table once more
        [--plot FILE.svg]        and time against horses (Debian's python3-matplotlib)

A size is HORSES x WEEKS x FEEDS, then /CLASSES where horses of one class are alike. Every
yard is short of hay. The rivals are general-purpose solvers of linear programs: glpsol,
Clp, Cbc and HiGHS, the last as scipy has it and as npm has it (npm install highs --prefix
FOLDER); those that are not installed are left out. They solve the same program, written
in free MPS; that of alike horses is written with each class as one.

Times are the processor's, user and system, since others may use the machine as well; the
clock's are in the JSON. haymow, on one thread, begins with the yard in memory and ends
with its certificate; of a rival, reading the file is taken off. A rival that needs more
than the limit is not tried again on programs as large. Memory is the most that the process
had. Ends with 1 when an optimum differs by more than 1e-6 or haymow has no certificate.
"""

import argparse
import json
import os
import pathlib
import platform
import random
import re
import resource
import shutil
import signal
import statistics
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent
AGREEMENT = 1e-6
SAME_SIZE = 0.8  # of the coefficients: a program as large as one that took too long


def measured(command, limit=None):
    """What a process prints, and what it took; `over` when the limit ended it."""

    def limited():
        if limit is not None:
            resource.setrlimit(resource.RLIMIT_CPU, (int(limit) + 1, int(limit) + 6))

    with tempfile.TemporaryFile() as told:
        begin = time.perf_counter()
        with subprocess.Popen(command, stdout=told, stderr=subprocess.STDOUT,
                              stdin=subprocess.DEVNULL, preexec_fn=limited) as process:
            _, status, used = os.wait4(process.pid, 0)
            process.returncode = os.waitstatus_to_exitcode(status)
        told.seek(0)
        cpu = used.ru_utime + used.ru_stime
        return {"text": told.read().decode("utf-8", "replace"), "code": process.returncode,
                "cpu_seconds": cpu, "clock_seconds": time.perf_counter() - begin,
                "memory_mb": used.ru_maxrss / 1024,
                "over": limit is not None and cpu > 0.9 * limit and
                process.returncode in (-signal.SIGXCPU, -signal.SIGKILL)}


class Program:
    """A rival that is a program of its own, which reads free MPS and prints its cost."""

    def __init__(self, words, reading, cost):
        self.words, self.reading, self.cost = words, reading, re.compile(cost)

    def is_here(self):
        return shutil.which(self.words[0]) is not None

    def solve(self, files, limit):
        reading = files.reading(tuple(str(files.mps) if w == "FILE" else w for w in self.reading))
        took = measured([str(files.mps) if w == "FILE" else w for w in self.words],
                        limit + reading)
        found = self.cost.findall(took["text"])
        took["cost"] = float(found[-1]) if found and took["code"] == 0 else None
        took["cpu_seconds"] -= reading
        return took


class InProcess:
    """A rival that is a library: a script of ours solves and prints JSON."""

    def __init__(self, command, is_here):
        self.command, self.is_here = command, is_here

    def solve(self, files, limit):
        took = measured(self.command(files), limit)
        if took["code"] == 0:
            told = json.loads(took["text"].splitlines()[-1])
            took["cost"], took["cpu_seconds"] = told["cost"], told["cpu_seconds"]
        else:
            took["cost"] = None
        return took


def has_scipy():
    told = subprocess.run([sys.executable, "-c", "import scipy.optimize"], capture_output=True,
                          check=False)
    return told.returncode == 0


def rivals(npm_folder):
    """All by name; the names of one solver begin alike."""
    number = r"(-?[\d.]+(?:e[+-]?\d+)?)"
    glpsol = (["glpsol", "--freemps", "FILE", "--check"], rf"obj =\s*{number}")
    clp = (["clp", "FILE", "-quit"], rf"Optimal objective {number}")
    arrays = HERE / "mps_arrays.py"
    out = {"glpsol": Program(["glpsol", "--freemps", "FILE"], *glpsol),
           "glpsol-dual": Program(["glpsol", "--freemps", "FILE", "--dual"], *glpsol)}
    for method in ("primal", "dual"):
        out[f"clp-{method}"] = Program(["clp", "FILE", f"-{method}simplex"], *clp)
    out["clp-barrier"] = Program(["clp", "FILE", "-barrier"], *clp)
    out["cbc"] = Program(["cbc", "FILE", "solve", "quit"], ["cbc", "FILE", "quit"],
                         rf"(?:Optimal objective|Optimal - objective value) {number}")
    for method in ("ipm", "ds"):
        out[f"highs-{method}"] = InProcess(
            lambda files, m=method: [sys.executable, arrays, "solve", files.arrays(),
                                     f"highs-{m}"], has_scipy)
    for method in ("ipm", "simplex"):
        out[f"highs-npm-{method}"] = InProcess(
            lambda files, m=method: ["node", "--max-old-space-size=8192",
                                     HERE / "highs_npm.cjs", npm_folder, files.mps, m],
            lambda: npm_folder is not None and shutil.which("node") is not None)
    return out


class Files:
    """One program as the rivals read it, and what the reading alone took."""

    def __init__(self, mps):
        self.mps = mps
        self.known = {}

    def reading(self, command):
        if command not in self.known:
            self.known[command] = measured(command)["cpu_seconds"]
        return self.known[command]

    def arrays(self):
        target = self.mps.with_suffix(".npz")
        if not target.exists():
            subprocess.run([sys.executable, HERE / "mps_arrays.py", "keep", self.mps, target],
                           check=True)
        return target


class Size:
    def __init__(self, text):
        found = re.fullmatch(r"(\d+)x(\d+)x(\d+)(?:/(\d+))?", text)
        if not found:
            sys.exit(f"no size: {text}")
        self.text = text
        self.horses, self.weeks, self.feeds = (int(w) for w in found.groups()[:3])
        self.classes = int(found.group(4) or 0)

    def words(self, seed):
        return ["--horses", str(self.horses), "--weeks", str(self.weeks), "--feeds",
                str(self.feeds), "--classes", str(self.classes), "--seed", str(seed)]


def haymow_run(bench, size, seed, limit):
    took = measured([bench, *size.words(seed), "--threads", "1", "--limit", str(10 * limit)])
    if took["code"] != 0:
        sys.exit(f"season_bench: {took['text']}")
    told = json.loads(took["text"])
    # The process's own times have the drawing of the yard in them.
    return {**told, "memory_mb": took["memory_mb"]}


def rival_run(rival, files, limit, cost):
    took = rival.solve(files, limit)
    text = took.pop("text")
    if took["cost"] is not None:
        took["status"] = "optimal"
        took["agrees"] = abs(took["cost"] - cost) <= AGREEMENT * max(1.0, abs(cost))
    else:
        took["status"] = "over the limit" if took["over"] else "no optimum"
        took["said"] = "" if took["over"] else text[-300:]
    return took


def yards(asked, tried, document, save):
    """Runs all; `document` grows, and is saved after every step."""
    too_large = {}  # of each rival: coefficients of the least program it had no time for
    for size in asked.sizes:
        for seed in asked.seeds:
            run = {"size": size.text, "horses": size.horses, "seed": seed,
                   "load": os.getloadavg()[0], "rivals": {}}
            document["runs"].append(run)
            run["haymow"] = haymow_run(asked.bench, size, seed, asked.limit)
            if run["haymow"]["status"] == "none":
                print(f"{size.text}, seed {seed}: this yard has no plan", file=sys.stderr)
                document["runs"].pop()
                continue
            print(f"{size.text}, seed {seed}: haymow {run['haymow']['cpu_seconds']:.2f} s",
                  file=sys.stderr)
            save()
            if size.horses > asked.rivals_up_to:
                continue
            with tempfile.TemporaryDirectory() as scratch:
                mps = pathlib.Path(scratch) / "yard.mps"
                told = measured([asked.bench, *size.words(seed), "--write", mps])
                run["program"] = json.loads(told["text"])
                large = run["program"]["coefficients"]
                files = Files(mps)
                for name, rival in tried.items():
                    if large >= SAME_SIZE * too_large.get(name, float("inf")):
                        continue
                    got = rival_run(rival, files, asked.limit, run["haymow"]["cost"])
                    run["rivals"][name] = got
                    if got["status"] == "over the limit":
                        too_large[name] = min(large, too_large.get(name, large))
                    print(f"  {name}: {got['cpu_seconds']:.2f} s, {got['status']}",
                          file=sys.stderr)
                    save()


def median_of(runs, key):
    return statistics.median(run[key] for run in runs)


def table(document):
    """The lines of a table in Markdown, one a size and solver, and what is reached."""
    lines = ["| horses x weeks x feeds | solver | seconds | times haymow's | memory, MB |",
             "|---|---|--:|--:|--:|"]
    notes = []
    for size in dict.fromkeys(run["size"] for run in document["runs"]):
        runs = [run for run in document["runs"] if run["size"] == size]
        ours = [run["haymow"] for run in runs]
        base, memory = median_of(ours, "cpu_seconds"), median_of(ours, "memory_mb")
        lines.append(f"| {size} | haymow | {base:.2f} | 1 | {memory:.0f} |")
        found = {}
        for name in dict.fromkeys(name for run in runs for name in run["rivals"]):
            got = [run["rivals"][name] for run in runs if name in run["rivals"]]
            done = [one for one in got if one["status"] == "optimal"]
            if len(done) < len(got) or not done:
                why = next(one["status"] for one in got if one["status"] != "optimal")
                told = f"over {document['limit']}" if why == "over the limit" else why
                lines.append(f"| | {name} | {told} | | {median_of(got, 'memory_mb'):.0f} |")
                continue
            cpu, most = median_of(done, "cpu_seconds"), median_of(done, "memory_mb")
            found[name] = cpu, most
            wrong = "" if all(one["agrees"] for one in done) else " ANOTHER OPTIMUM"
            lines.append(f"| | {name}{wrong} | {cpu:.2f} | {cpu / base:.1f} | {most:.0f} |")
        notes.append(verdict(size, runs, base, memory, found, document["limit"]))
    return lines + [""] + notes


def verdict(size, runs, base, memory, found, limit):
    """Which rival was best, in a sentence."""
    seeds = f"- {size}, {len(runs)} seeds: "
    if found:
        best = min(found, key=lambda name: found[name][0])
        cpu, most = found[best]
        return (f"{seeds}the best rival is {best}; haymow takes 1/{cpu / base:.1f} of its time "
                f"and {memory / most:.2f} of its memory.")
    if any(run["rivals"] for run in runs):
        return f"{seeds}no rival within {limit} s; haymow takes at most 1/{limit / base:.0f} of it."
    return f"{seeds}haymow alone, {base:.2f} s."


def points(runs, limit):
    """Of each solver: number of horses, median of its seconds, whether that is the limit."""
    lines = {}
    for horses in sorted({run["horses"] for run in runs}):
        of_size = [run for run in runs if run["horses"] == horses]
        ours = median_of([run["haymow"] for run in of_size], "cpu_seconds")
        lines.setdefault("haymow", []).append((horses, ours, False))
        for name in dict.fromkeys(name for run in of_size for name in run["rivals"]):
            got = [run["rivals"][name] for run in of_size if name in run["rivals"]]
            seconds = [one["cpu_seconds"] if one["status"] == "optimal" else limit for one in got]
            middle = statistics.median(seconds)
            lines.setdefault(name, []).append((horses, middle, middle >= limit))
    return lines


def plot(document, target):
    """Time against the number of horses of which none is like another, both by powers."""
    import matplotlib  # here, since only this needs it

    matplotlib.use("svg")
    matplotlib.rcParams.update({"svg.fonttype": "none", "svg.hashsalt": "haymow",
                                "font.family": "sans-serif"})
    from matplotlib import pyplot

    runs = [run for run in document["runs"] if "/" not in run["size"]]
    figure, axes = pyplot.subplots(figsize=(7, 4.5))
    styles = iter(["-", "--", "-.", ":", (0, (1, 3)), (0, (5, 1, 1, 1, 1, 1))])
    for name, line in points(runs, document["limit"]).items():
        horses, seconds, _ = zip(*line)
        drawn, = axes.plot(horses, seconds, linestyle=next(styles, "-"), marker=".",
                           color="black" if name == "haymow" else "dimgray",
                           linewidth=2 if name == "haymow" else 1, label=name)
        over = [(h, s) for h, s, is_over in line if is_over]
        if over:
            axes.plot(*zip(*over), linestyle="", marker="^", markersize=8,
                      color=drawn.get_color())
    axes.set(xscale="log", yscale="log", xlabel="horses, none like another",
             ylabel="seconds of one processor, median")
    counts = sorted({run["horses"] for run in runs})
    axes.set_xticks(counts, [str(count) for count in counts])
    axes.minorticks_off()
    axes.set_yticks([0.1, 1, 10, 100], ["0.1", "1", "10", "100"])
    axes.grid(color="lightgray", linewidth=0.5)
    axes.legend(frameon=False)
    figure.savefig(target, format="svg", bbox_inches="tight",
                   metadata={"Date": None, "Creator": "tests/bench/season_rivals.py",
                             "Title": "Time against the number of horses"})


def holds(document):
    """Whether every answer has its certificate and all optima agree."""
    return all(run["haymow"]["status"] == "certified" and
               all(got.get("agrees", True) for got in run["rivals"].values())
               for run in document["runs"])


def processor():
    try:
        info = pathlib.Path("/proc/cpuinfo").read_text(encoding="utf-8")
        return re.search(r"model name\s*: (.*)", info).group(1)
    except (OSError, AttributeError):
        return platform.processor()


def main():
    arguments = argparse.ArgumentParser(description=__doc__,
                                        formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--bench", type=pathlib.Path)
    arguments.add_argument("--sizes", default="30x26x25,100x26x30,300x30x30,300x30x30/10,1000x26x30")
    arguments.add_argument("--count", type=int, default=5)
    arguments.add_argument("--seeds")
    arguments.add_argument("--limit", type=int, default=120)
    arguments.add_argument("--rivals", default="")
    arguments.add_argument("--rivals-up-to", type=int, default=300, metavar="HORSES")
    arguments.add_argument("--npm-highs", metavar="FOLDER")
    arguments.add_argument("--json", type=pathlib.Path)
    arguments.add_argument("--again", type=pathlib.Path)
    arguments.add_argument("--plot", type=pathlib.Path)
    asked = arguments.parse_args()
    if asked.again:
        document = json.loads(asked.again.read_text(encoding="utf-8"))
        print("\n".join(table(document)))
        if asked.plot:
            plot(document, asked.plot)
        sys.exit(0 if holds(document) else 1)
    if not asked.bench:
        arguments.error("--bench is needed")
    asked.bench = asked.bench.resolve()
    asked.sizes = [Size(text) for text in asked.sizes.split(",")]
    if asked.seeds:
        asked.seeds = [int(seed) for seed in asked.seeds.split(",")]
    else:
        asked.seeds = [random.SystemRandom().randrange(1, 1 << 32) for _ in range(asked.count)]
    print("seeds", ",".join(str(seed) for seed in asked.seeds))
    known = rivals(asked.npm_highs)
    wanted = asked.rivals.split(",") if asked.rivals else list(known)
    tried = {name: known[name] for name in wanted if known[name].is_here()}
    absent = [name for name in wanted if name not in tried]
    if absent:
        print("not here:", ", ".join(absent))
    document = {"processor": processor(), "cores": os.cpu_count(), "system": platform.platform(),
                "begun": time.strftime("%Y-%m-%d %H:%M"), "limit": asked.limit,
                "seeds": asked.seeds, "not_here": absent, "runs": []}

    def save():
        if asked.json:
            asked.json.write_text(json.dumps(document, indent=1) + "\n", encoding="utf-8")

    yards(asked, tried, document, save)
    save()
    print("\n".join(table(document)))
    if asked.plot:
        plot(document, asked.plot)
    sys.exit(0 if holds(document) else 1)


if __name__ == "__main__":
    main()
