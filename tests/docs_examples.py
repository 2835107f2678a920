"""Runs the examples of the documentation and compares what they print.

In README.md, DEVELOPERS.md and docs/**/*.md:

    ```console            each line "$ ..." is run, the lines after it are what it prints
                          (both streams); a line "..." stands for any lines left out
    ```yaml file=NAME     is saved as NAME before the examples after it run

The examples of one page run in the order of the page, in one copy of
scenarios/examples. Only the commands in `runnable` are run; blocks that are not
to be run are marked sh or text. With --update the blocks without "..." are
rewritten with what the program prints.
"""

import argparse
import difflib
import os
import pathlib
import re
import shutil
import subprocess
import sys

runnable = {"haymow", "cat", "head", "tail", "grep", "diff", "echo"}
fence = re.compile(r"^(?P<indent> *)(?P<marks>```+|~~~+)(?P<info>.*)$")


def blocks_of(lines):
    """Yields (info, first line, one past the last line, indent) of every fenced block."""
    opened = None
    for number, line in enumerate(lines):
        found = fence.match(line)
        if not found:
            continue
        if opened is None:
            opened = (found["marks"], found["info"].strip(), number + 1, len(found["indent"]))
        elif found["marks"].startswith(opened[0]) and not found["info"].strip():
            yield opened[1], opened[2], number, opened[3]
            opened = None


def sessions_of(lines):
    """Splits a console block into [command, expected lines]; None when it has text before "$"."""
    sessions = []
    for line in lines:
        if line.startswith("$ "):
            sessions.append([line[2:], []])
        elif sessions:
            sessions[-1][1].append(line)
        else:
            return None
    return sessions


def matches(expected, actual):
    """Whether `actual` is `expected`, where a line "..." stands for any lines."""
    if "..." not in expected:
        return expected == actual
    at = expected.index("...")
    if actual[:at] != expected[:at]:
        return False
    rest = expected[at + 1 :]
    return any(matches(rest, actual[start:]) for start in range(at, len(actual) + 1))


def environment_for(program, work):
    kept = {name: os.environ[name] for name in ("ASAN_OPTIONS", "LSAN_OPTIONS", "UBSAN_OPTIONS")
            if name in os.environ}
    return {**kept, "PATH": f"{program.parent}:/usr/bin:/bin", "HOME": str(work),
            "TERM": "dumb", "LC_ALL": "C.UTF-8", "TZ": "UTC"}


def check_page(page, name, program, work, update):
    """Runs the examples of one page; returns (number run, list of complaints)."""
    lines = page.read_text(encoding="utf-8").splitlines()
    environment = environment_for(program, work)
    run, complaints, rewritten = 0, [], []
    status = 0
    for info, begin, end, indent in list(blocks_of(lines)):
        body = [line[indent:] for line in lines[begin:end]]
        saved = re.fullmatch(r"\w+ file=([\w.-]+)", info)
        if saved:
            (work / saved[1]).write_text("\n".join(body) + "\n", encoding="utf-8")
        if info.split(" ")[0] != "console":
            continue
        sessions = sessions_of(body)
        if not sessions:
            complaints.append(f"{name}:{begin + 1}: a console block begins with a line `$ command`")
            continue
        new_body = []
        for command, expected in sessions:
            if command.split(" ")[0] not in runnable:
                complaints.append(f"{name}:{begin + 1}: `{command}` is not run by the test; "
                                  "mark the block `sh` or `text`")
                break
            # `echo $?` is asked of the command before.
            done = subprocess.run(["sh", "-c", f"(exit {status})\n{command}"], cwd=work,
                                  env=environment, stdin=subprocess.DEVNULL, text=True,
                                  encoding="utf-8", stdout=subprocess.PIPE,
                                  stderr=subprocess.STDOUT, timeout=120, check=False)
            status = done.returncode
            run += 1
            actual = done.stdout.splitlines()
            if "..." in expected or not update:
                new = expected
                if not matches(expected, actual):
                    difference = difflib.unified_diff(expected, actual, "written", "printed",
                                                      lineterm="")
                    complaints.append(f"{name}:{begin + 1}: `{command}` prints something else\n"
                                      + "\n".join(difference))
            else:
                new = actual
            new_body += [f"$ {command}", *new]
        rewritten.append((begin, end, [" " * indent + line if line else line for line in new_body]))
    if update and not complaints:
        for begin, end, new_body in reversed(rewritten):
            lines[begin:end] = new_body
        page.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return run, complaints


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--program", type=pathlib.Path, required=True)
    options.add_argument("--tree", type=pathlib.Path, required=True)
    options.add_argument("--work", type=pathlib.Path, required=True)
    options.add_argument("--update", action="store_true",
                         default=bool(os.environ.get("HAYMOW_UPDATE")))
    asked = options.parse_args()

    pages = [asked.tree / "README.md", asked.tree / "DEVELOPERS.md",
             *sorted((asked.tree / "docs").rglob("*.md"))]
    total, complaints = 0, []
    for page in filter(pathlib.Path.exists, pages):
        shutil.rmtree(asked.work, ignore_errors=True)
        asked.work.mkdir(parents=True)
        for example in (asked.tree / "scenarios" / "examples").glob("*"):
            shutil.copy(example, asked.work)
        run, found = check_page(page, page.relative_to(asked.tree), asked.program.resolve(),
                                asked.work, asked.update)
        total += run
        complaints += found
    for complaint in complaints:
        print(complaint, end="\n\n")
    print(f"{total} examples run, {len(complaints)} complaints")
    return 1 if complaints else 0


sys.exit(main())
