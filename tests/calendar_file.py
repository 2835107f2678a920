"""Reads the calendar of a winter with a parser that is not ours (python3-icalendar) and
holds it to the JSON of the same plan: every order day, every change, a condition check
every two weeks, names as the keeper wrote them. Then events are taken away, and each
must be missed.
"""

import argparse
import datetime
import json
import pathlib
import subprocess
import tempfile

import icalendar

# What RFC 5545 escapes or folds: a comma, a semicolon, letters of more than one octet.
awkward_name = "Grüne Wiese, erster Schnitt; vom Nachbarn gekauft und nachgetrocknet"
days_between_checks = 14


def day(text):
    return datetime.date.fromisoformat(text)


def plan_and_calendar(program, scenario):
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder) / "yard.yaml"
        file.write_text(scenario, encoding="utf-8")
        written = pathlib.Path(folder) / "yard.ics"
        run = subprocess.run(
            [program, "winter", "--format", "json", "--calendar", written, file],
            capture_output=True, text=True, check=True)
        return json.loads(run.stdout), written.read_bytes()


def events_of(calendar):
    events = list(calendar.walk("VEVENT"))
    for event in events:
        first, after = event.decoded("dtstart"), event.decoded("dtend")
        assert after - first == datetime.timedelta(days=1), f"{first} to {after}: not a day"
        assert event.decoded("dtstamp").tzinfo is not None, "a stamp without UTC"
    uids = [str(event["uid"]) for event in events]
    assert len(set(uids)) == len(uids), "two events of one UID"
    return events


def check(plan, events):
    def told(kind):
        return {e.decoded("dtstart"): e for e in events if str(e["uid"]).startswith(kind + "-")}

    feeds = {}
    for order in plan["orders"]:
        feeds.setdefault(day(order["date"]), []).append(order["feed"])
    orders = told("order")
    assert set(orders) == set(feeds), f"order days {sorted(orders)}, the plan has {sorted(feeds)}"
    for date, names in feeds.items():
        for name in names:
            text = str(orders[date]["summary"]) + str(orders[date]["description"])
            assert text.count(name) == 2, f"{date}: {name} is not in {text!r} as it is written"

    first, last = day(plan["season"]["from"]), day(plan["season"]["until"])
    begun = {day(s["from"]) for h in plan["horses"] for s in h["spells"]} - {first}
    assert set(told("change")) == begun, f"changes on {sorted(told('change'))}, not {sorted(begun)}"
    count = (last - first).days // days_between_checks + 1
    checks = {first + datetime.timedelta(days=days_between_checks * k) for k in range(count)}
    assert set(told("condition")) == checks, "condition checks are not every two weeks"
    assert len(events) == len(feeds) + len(begun) + count, "events of no known kind"


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", required=True)
    parser.add_argument("--tree", type=pathlib.Path, required=True)
    options = parser.parse_args()

    case = options.tree / "tests/cases/winter-of-a-small-yard/input.yaml"
    scenario = case.read_text(encoding="utf-8")
    assert "bought hay" in scenario
    scenario = scenario.replace("name: bought hay", f"name: '{awkward_name}'")
    plan, octets = plan_and_calendar(options.program, scenario)
    assert any(order["feed"] == awkward_name for order in plan["orders"])
    lines = octets.split(b"\r\n")
    assert lines[-1] == b"" and all(len(line) <= 75 and b"\n" not in line for line in lines)

    events = events_of(icalendar.Calendar.from_ical(octets))
    check(plan, events)
    for k in range(len(events)):
        try:
            check(plan, events[:k] + events[k + 1:])
        except AssertionError:
            continue
        raise SystemExit(f"the event {events[k]['uid']} is not missed")
    print(f"{len(events)} events are those of the plan")


if __name__ == "__main__":
    main()
