"""Runs `haymow batch` as people do, and worse than they do.

Lines are held to docs/reference/report.schema.json and to what `haymow ration` says of
the same horse; one job and two give the same bytes; a run that is killed again and
again, and goes on each time, leaves the bytes of one that was left in peace; a bad
record is answered with its mistakes and the rest goes on.
"""

import argparse
import contextlib
import json
import os
import pathlib
import pty
import random
import re
import signal
import subprocess
import sys
import tempfile
import time

import jsonschema

from report_schema import closed

base = """
money: GBP
forage:
  - {feed: "meadow hay, late cut", name: our hay, price: 4.50 per 18 kg bale, waste: 8 %}
  - {feed: oat straw, price: 110 per tonne}
market:
  - {feed: "oats, rolled", name: oats, price: 11.60 per 20 kg bag}
  - {feed: "sugar beet pulp, unmolassed", name: beet pulp, price: 14.20 per 20 kg bag}
  - {feed: soya bean meal, price: 16.50 per 20 kg bag}
  - {feed: balancer pellet, price: 28.00 per 20 kg bag}
  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}
  - {feed: limestone flour, price: 6.50 per 3 kg tub}
  - {feed: salt, price: 11.00 per 25 kg bag}
"""
works = ["none", "light", "moderate", "heavy"]
# What one customer has: rich hay of its own and a pony that may not grow fat.
own_hay = {
    "key": "own hay",
    "forage": [{"feed": "meadow hay, early cut", "name": "rich hay", "price": "150 per tonne"}],
    "horses": [{"name": "Dumpling", "bodyweight": "300 kg", "work": "none", "energy factor": 0.8}],
}
at_grass = {
    "key": "at grass",
    "season": {"from": "2027-04-01", "until": "2027-06-30"},
    "horses": [{"name": "Fern", "bodyweight": "500 kg", "work": "light",
                "grazing": {"turnout": {"april": "3 h", "may to june": "6 h"}, "grass": "fair"}}],
}
refused = {"key": "vet", "horses": [{"name": "Wisp", "bodyweight": "480 kg", "work": "none",
                                     "health": ["colic"]}]}


def horse(draw, number):
    return {"name": f"horse {number}", "bodyweight": f"{draw.randint(300, 650)} kg",
            "work": draw.choice(works)}


def some_records(count, seed):
    draw = random.Random(seed)
    lines = [json.dumps({"key": f"K{n:05}", "horses": [horse(draw, n)]}) for n in range(count)]
    lines[3] = json.dumps(own_hay)
    lines[5] = json.dumps(refused)
    lines[7] = '{"key": "torn", "horses": [{"name": "Fern"'
    lines[9] = json.dumps({"key": "K00008", "horses": [horse(draw, 8)]})  # a key twice
    lines[11] = json.dumps(at_grass)
    lines[13] = ""  # none at all
    return "\n".join(lines) + "\n"


class Batch:
    def __init__(self, program, folder):
        self.program = program
        self.folder = folder
        self.base = folder / "base.yaml"
        self.base.write_text(base, encoding="utf-8")

    def command(self, records, *words):
        return [self.program, "batch", str(records), "--base", str(self.base), *words]

    def run(self, records, *words, status=0, text=None):
        done = subprocess.run(self.command(records, *words), input=text, capture_output=True,
                              encoding="utf-8", timeout=100, check=False)
        if done.returncode != status:
            sys.exit(f"`batch {' '.join(words)}` ended with {done.returncode}, not {status}\n"
                     f"{done.stderr}")
        return done


def check(truth, what):
    if not truth:
        sys.exit(f"not so: {what}")


def answers_of(text):
    return [json.loads(line) for line in text.splitlines()]


def check_lines(batch, records, schema):
    """The answers stand in the order of the records and are what the schema says."""
    text = records.read_text("utf-8")
    done = batch.run(records, "--jobs", "1", status=3)
    answers = answers_of(done.stdout)
    keys = [answer["key"] for answer in answers]
    wanted = [None if "torn" in line else json.loads(line)["key"]
              for line in text.splitlines() if line]
    check(keys == wanted, "the keys are those of the records, in their order")
    check("2 of 59 records could not be answered" in done.stderr, f"the count: {done.stderr}")
    by_key = {}
    for answer in answers:
        by_key.setdefault(answer["key"], answer)
        faults = [error.message for error in schema.iter_errors(answer)]
        check(not faults, f"the line of {answer['key']} is as its schema says: {faults[:1]}")
    check(by_key[None]["status"] == "input", "a torn record is told")
    check(by_key[None]["diagnostics"][0]["line"] == 8, "with its line")
    check(answers[9]["status"] == "input", "a key that stands twice is told")
    check("record 9" in answers[9]["diagnostics"][0]["message"], "with where it stood")
    check(by_key["vet"]["horses"][0]["status"] == "refused", "a colic is the vet's")
    check(by_key["own hay"]["horses"][0]["conflict"], "what clashes is told")
    check(len(by_key["at grass"]["horses"][0]["months"]) == 3, "months are told apart")
    # The schema must be able to fail.
    broken = json.loads(json.dumps(answers[0]))
    del broken["horses"][0]["certificate"]
    check(not schema.is_valid(broken), "the schema misses a certificate")
    return done.stdout


def check_jobs(batch, records, wanted):
    """Whatever the number of jobs and wherever the records come from: the same bytes."""
    for jobs in ("2", "3"):
        check(batch.run(records, "--jobs", jobs, status=3).stdout == wanted, f"{jobs} jobs as one")
    text = records.read_text("utf-8")
    piped = batch.run("-", "--jobs", "2", status=3, text=text).stdout
    check(piped.replace("standard input", str(records)) == wanted, "standard input as a file")
    check(batch.run("-", status=0, text="").stdout == "", "no record, no answer")


def check_against_ration(batch, records):
    """A record is answered as `haymow ration` answers the scenario with its horse in it."""
    shared = batch.base.read_text("utf-8")
    for line in records.read_text("utf-8").splitlines()[:3]:
        record = json.loads(line)
        scenario = f"{shared}horses: {json.dumps(record['horses'])}\n"
        words = [batch.program, "ration", "-", "--format", "json"]
        told = subprocess.run(words, input=scenario, capture_output=True, encoding="utf-8",
                              check=True)
        (whole,) = json.loads(told.stdout)["horses"]
        (brief,) = answers_of(batch.run("-", text=line).stdout)[0]["horses"]
        for key in ("name", "status", "meals", "cost_per_day", "feeds", "certificate"):
            check(brief[key] == whole[key], f"{key} of {record['key']} is as ration has it")
        held = {limit["id"] for limit in brief["limits"]}
        check(held <= {limit["id"] for limit in whole["limits"]}, "so are the limits that hold")
        (full,) = answers_of(batch.run("-", "--full", text=line).stdout)[0]["horses"]
        check(full == whole, "--full is all that ration says")


def check_folder(batch, folder):
    """Scenario files answered in the order of their names, a bad one among them."""
    yard = folder / "yards"
    (yard / "north").mkdir(parents=True)
    (yard / "b.yaml").write_text("horses: [{name: B, bodyweight: 500 kg, work: light}]\n", "utf-8")
    (yard / "a.yaml").write_text("horses: [{name: A, bodyweight: 540, work: light}]\n", "utf-8")
    (yard / "north" / "c.yaml").write_text("horses: [{name: C, bodyweight: 450 kg, work: none}]\n",
                                           "utf-8")
    (yard / "notes.txt").write_text("not a scenario\n", "utf-8")
    answers = answers_of(batch.run(yard, status=3).stdout)
    check([a["key"] for a in answers] == ["a.yaml", "b.yaml", "north/c.yaml"], "names in order")
    check([a["status"] for a in answers] == ["input", "found", "found"], "the rest goes on")
    check(answers[0]["diagnostics"][0]["file"].endswith("yards/a.yaml"), "the file is named")


def let_it_work(process, out, draw):
    """For no time at all now and then; else until it has written more, and a little longer.

    Not for a fixed time: with sanitizers the program takes longer to begin than it would
    else take to be done."""
    if draw.random() < 0.2:
        time.sleep(draw.uniform(0.0, 0.05))
        return
    size = lambda: out.stat().st_size if out.exists() else 0
    before = size()
    patience = time.monotonic() + 30.0
    while process.poll() is None and size() == before and time.monotonic() < patience:
        time.sleep(0.002)
    time.sleep(draw.uniform(0.0, 0.05))


def check_resume(batch, records, wanted, seed):
    """Killed and told to stop at any moment, the file is in the end as it ought to be."""
    draw = random.Random(seed)
    out = batch.folder / "out.jsonl"
    stops = 0
    lengths = set()
    for attempt in range(60):
        how = draw.choice([signal.SIGKILL, signal.SIGKILL, signal.SIGINT, signal.SIGTERM])
        command = batch.command(records, "--jobs", str(draw.randint(1, 2)), "-o", str(out))
        with subprocess.Popen(command, stderr=subprocess.PIPE) as process:
            let_it_work(process, out, draw)
            process.send_signal(how)
            process.communicate()
        if process.returncode in (0, 1, 3):
            break
        stops += 1
        check(process.returncode in (-signal.SIGKILL, -signal.SIGINT, -signal.SIGTERM, 130),
              f"stopped as told, not with {process.returncode}")
        if not out.exists():
            continue
        so_far = out.read_bytes()
        check(wanted.startswith(so_far), f"what is there after stop {attempt} is right")
        lengths.add(len(so_far))
        if draw.random() < 0.3 and so_far:  # as after a power cut: the end is missing
            out.write_bytes(so_far[:-draw.randint(1, min(200, len(so_far)))])
    batch.run(records, "-o", str(out), status=3)
    check(out.read_bytes() == wanted, "nothing twice, nothing lost, in order")
    check(stops >= 5 and len(lengths) >= 3, f"it was stopped often: {stops}, {len(lengths)} lengths")
    before = out.stat().st_mtime_ns
    batch.run(records, "-o", str(out), status=3)
    check(out.read_bytes() == wanted and out.stat().st_mtime_ns == before, "done is done")


def check_refusals(batch, folder, records, wanted):
    """Answers to other records, or by another base, are not gone on with."""
    out = folder / "out.jsonl"
    lines = records.read_text("utf-8").splitlines()
    changed = folder / "changed.jsonl"
    changed.write_text("\n".join([lines[1], lines[0], *lines[2:]]) + "\n", "utf-8")
    done = batch.run(changed, "-o", str(out), status=4)
    check("its line 1 is not the answer to record 1" in done.stderr, done.stderr)
    check(out.read_bytes() == wanted, "the file is left alone")
    batch.run(records, "--full", "-o", str(out), status=4)
    fewer = folder / "fewer.jsonl"
    fewer.write_text("\n".join(lines[:20]) + "\n", "utf-8")
    check("more answers" in batch.run(fewer, "-o", str(out), status=4).stderr, "fewer records")
    letter = folder / "letter.txt"
    letter.write_text("Dear yard manager", "utf-8")
    batch.run(records, "-o", str(letter), status=4)
    check(letter.read_text("utf-8") == "Dear yard manager", "somebody's letter is left alone")
    batch.run(changed, "-o", str(out), "--force", status=3)
    check(out.read_bytes() != wanted, "--force begins again")
    batch.base.write_text(base.replace("11.60", "12.60"), "utf-8")
    batch.run(changed, "-o", str(out), status=4)
    batch.base.write_text(base, "utf-8")


def check_streaming(batch):
    """An answer comes before the next record does."""
    command = batch.command("-", "--jobs", "2")
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                          encoding="utf-8") as process:
        for n in range(3):
            record = {"key": str(n), "horses": [horse(random.Random(n), n)]}
            process.stdin.write(json.dumps(record) + "\n")
            process.stdin.flush()
            check(json.loads(process.stdout.readline())["key"] == str(n), "an answer at once")
        process.stdin.close()
        check(process.wait(timeout=20) == 0, "and an end")


def check_progress(batch, records):
    """A line for whoever looks on, and none for a file."""
    ours, theirs = pty.openpty()
    command = batch.command(records, "--jobs", "1")
    told = b""
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=theirs) as process:
        os.close(theirs)
        with contextlib.suppress(OSError):  # how a terminal says that nobody is left
            while part := os.read(ours, 4096):
                told += part
    os.close(ours)
    check(process.returncode == 3, "the run ends as ever")
    check(re.search(rb"\r[\d,]+ records, [\d,]+ a second, \d+ %, \d+ s left", told),
          f"progress on a terminal: {told[:300]}")
    silent = batch.run(records, status=3).stderr
    check("a second" not in silent and "\r" not in silent, "no progress in a file")


def check_memory(batch, folder):
    """Ten times the records take no more memory but for the keys."""
    peaks = []
    for count in (600, 6000):
        records = folder / "many.jsonl"
        draw = random.Random(count)
        with records.open("w", encoding="utf-8") as out:
            for n in range(count):
                print(json.dumps({"key": f"K{n}", "horses": [horse(draw, n)]}), file=out)
        script = ("import resource, subprocess, sys; subprocess.run(sys.argv[1:], "
                  "stdout=subprocess.DEVNULL, check=False); "
                  "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)")
        done = subprocess.run([sys.executable, "-c", script,
                               *batch.command(records, "--jobs", "2", "-q")],
                              capture_output=True, encoding="utf-8", timeout=200, check=True)
        peaks.append(int(done.stdout))
    print(f"peak memory: {peaks[0]} kB for 600 records, {peaks[1]} kB for 6000")
    # 8,192 keys take 100 kB; the rest is what the allocator keeps, which is more with
    # sanitizers: a share of what they hold back.
    check(peaks[1] < 1.05 * peaks[0] + 4000, f"memory is flat: {peaks} kB")


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--program", type=pathlib.Path, required=True)
    arguments.add_argument("--tree", type=pathlib.Path, required=True)
    asked = arguments.parse_args()
    schema = json.loads((asked.tree / "docs/reference/report.schema.json").read_text("utf-8"))
    closed_schema = jsonschema.Draft202012Validator(closed(schema))
    seed = random.SystemRandom().randrange(1 << 32)
    print(f"seed {seed}")
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        batch = Batch(str(asked.program.resolve()), folder)
        records = folder / "records.jsonl"
        records.write_text(some_records(60, 4711), encoding="utf-8")
        wanted = check_lines(batch, records, closed_schema)
        check_jobs(batch, records, wanted)
        check_against_ration(batch, records)
        check_folder(batch, folder)
        check_streaming(batch)
        many = folder / "more.jsonl"
        many.write_text(some_records(2000, seed), encoding="utf-8")
        wanted = batch.run(many, "--jobs", "1", status=3).stdout.encode("utf-8")
        check_resume(batch, many, wanted, seed)
        check_refusals(batch, folder, many, wanted)
        check_progress(batch, many)
        check_memory(batch, folder)
    print("all is as it should be")


if __name__ == "__main__":
    main()
