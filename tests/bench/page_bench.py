"""Times `haymow page`: how soon a ration is answered, and how many a second.

    python3 tests/bench/page_bench.py --program build/release/scenarios/haymow [--seconds 10]

Of the examples: one horse (starter.yaml) and four (ninefields.yaml), with all that the
page shows of them. Every answer is asked for anew, with another bodyweight, and must hold
its certificate. First one client asks, one question after the other; then four do at once,
as many as they can; then four more while a season is being planned in the same program,
which must still be at work when they end.
"""

import argparse
import http.client
import json
import pathlib
import re
import statistics
import sys
import tempfile
import threading
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
from served_page import Served

# Aims: 100 ms for an answer, 50 answers a second beside a season's plan.


class Client:
    """One connection that is kept, as a browser keeps it."""

    def __init__(self, port):
        self.line = http.client.HTTPConnection("127.0.0.1", port, timeout=60)

    def ask(self, path, what):
        self.line.request("POST", path, json.dumps(what))
        response = self.line.getresponse()
        told = json.loads(response.read())
        if response.status != 200:
            sys.exit(f"{path}: {response.status} {told}")
        return told


def heavier(text, kg):
    """The first horse weighs so much."""
    heavier, changed = re.subn(r"(\n[^#\n]*bodyweight: *)\d+", rf"\g<1>{kg}", text, count=1)
    if changed != 1:
        sys.exit("no horse to make heavier")
    return heavier


def look(client, text, kg):
    begun = time.perf_counter()
    answer = client.ask("/look", {"text": heavier(text, kg), "file": "a.yaml"})["answer"]
    if "Certified" not in answer:
        sys.exit("an answer without its certificate")
    return time.perf_counter() - begun


def one_after_the_other(port, text):
    client = Client(port)
    look(client, text, 500)
    times = sorted(look(client, text, 480 + n) for n in range(60))
    print(f"  one client: {1000 * statistics.median(times):.1f} ms in the middle, "
          f"{1000 * times[56]:.1f} ms at most in 19 of 20")


def at_once(port, text, seconds, clients=4):
    """Answers a second, and the time of the middle one."""
    times = []

    def keep_asking(number):
        client = Client(port)
        n = 0
        while time.perf_counter() < end:
            times.append(look(client, text, 450 + (number * 37 + n) % 150))
            n += 1

    begun = time.perf_counter()
    end = begun + seconds
    threads = [threading.Thread(target=keep_asking, args=(i,)) for i in range(clients)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    took = time.perf_counter() - begun
    return len(times) / took, 1000 * statistics.median(times)


def long_season(text):
    """A winter of many horses, all unlike, that takes longer to plan than is measured."""
    horses = "".join(f"  - {{name: Horse {i}, bodyweight: {430 + 3 * i} kg, work: light}}\n"
                     for i in range(48))
    eaten = re.sub(r"on hand: [^,}\n]*,? ?", "", text[text.index("forage:"):])
    return ("money: GBP\nseason: {from: 2026-11-01, until: 2027-04-20}\nhorses:\n" + horses + eaten)


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--program", required=True, type=pathlib.Path)
    arguments.add_argument("--seconds", type=float, default=10.0)
    given = arguments.parse_args()
    examples = pathlib.Path(__file__).resolve().parent.parent.parent / "scenarios" / "examples"
    winter = long_season((examples / "ninefields.yaml").read_text(encoding="utf-8"))
    for name in ("starter.yaml", "ninefields.yaml"):
        text = (examples / name).read_text(encoding="utf-8")
        with (tempfile.TemporaryDirectory() as folder,
              Served(given.program.resolve(), folder) as served):
            print(f"{name}:")
            one_after_the_other(served.port, text)
            rate, middle = at_once(served.port, text, given.seconds)
            print(f"  four clients: {rate:.0f} answers a second, {middle:.1f} ms in the middle")
            client = Client(served.port)
            plan = client.ask("/plan", {"text": winter, "file": "a.yaml", "view": "winter"})
            while client.ask("/planned", plan)["state"] == "waiting":
                time.sleep(0.02)
            rate, middle = at_once(served.port, text, given.seconds)
            # Anew: a connection on which nothing is asked for seconds is ended.
            state = Client(served.port).ask("/planned", plan)["state"]
            print(f"  the same while a season is planned: {rate:.0f} answers a second, "
                  f"{middle:.1f} ms in the middle")
            if state != "working":
                sys.exit(f"the season was {state} before the end: ask for fewer --seconds")
            served.stop()


if __name__ == "__main__":
    main()
