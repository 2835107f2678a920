"""Compares the commands and options the program's help names with those of the
manual page, the reference page and the bash completion; none may be missing on
either side."""

import argparse
import pathlib
import re
import subprocess
import sys

option = re.compile(r"(?<![\w-])--[a-z][a-z-]*")


def help_of(program, *command):
    done = subprocess.run([program, *command, "--help"], capture_output=True, text=True, check=True)
    return done.stdout


def from_program(program):
    """The commands named by `haymow --help`, and all options by any help."""
    text = help_of(program)
    begin = re.search(r"^(sub)?commands:", text, re.IGNORECASE | re.MULTILINE)
    if not begin:
        sys.exit("`haymow --help` has no line `Subcommands:` or `Commands:`")
    commands = set(re.findall(r"^  ([a-z]+)\b", text[begin.end():], re.MULTILINE))
    options = set(option.findall(text))
    for command in sorted(commands):
        options |= set(option.findall(help_of(program, command)))
    return commands, options


def from_manual(page):
    text = page.read_text(encoding="utf-8").replace("\\-", "-")
    commands = set(re.findall(r"^\.SS ([a-z]+)", text, re.MULTILINE))
    return commands, set(option.findall(text))


def from_page(page):
    """Commands are headings in lower case: "## ration FILE"."""
    text = page.read_text(encoding="utf-8")
    return set(re.findall(r"^## ([a-z]+)", text, re.MULTILINE)), set(option.findall(text))


def from_completion(script):
    """What the completion offers; sourced and asked, not read."""
    def offered(*words):
        ask = ('. "$1"; shift; COMP_WORDS=("$@"); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); '
               '_haymow; printf "%s\\n" "${COMPREPLY[@]}"')
        done = subprocess.run(["bash", "-c", ask, "bash", script, "haymow", *words],
                              capture_output=True, text=True, check=True)
        return {word.strip() for word in done.stdout.split()}
    commands = offered("")
    options = offered("--")
    for command in sorted(commands):
        options |= offered(command, "--")
    return commands, options


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--program", type=pathlib.Path, required=True)
    arguments.add_argument("--tree", type=pathlib.Path, required=True)
    asked = arguments.parse_args()

    wanted = from_program(asked.program)
    faults = 0
    for where, found in [
        ("docs/reference/haymow.1", from_manual(asked.tree / "docs/reference/haymow.1")),
        ("docs/reference/command-line.md",
         from_page(asked.tree / "docs/reference/command-line.md")),
        ("scenarios/completions/haymow.bash",
         from_completion(asked.tree / "scenarios/completions/haymow.bash")),
    ]:
        for kind, have, want in zip(("command", "option"), found, wanted):
            for name in sorted(want - have):
                print(f"{where}: {kind} {name} is missing")
                faults += 1
            for name in sorted(have - want):
                print(f"{where}: {kind} {name} is not in the program's help")
                faults += 1
    print(f"{len(wanted[0])} commands and {len(wanted[1])} options compared, {faults} faults")
    return 1 if faults else 0


sys.exit(main())
