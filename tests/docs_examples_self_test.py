"""Shows that docs_examples.py can fail: small pages with one fault each."""

import pathlib
import subprocess
import sys
import tempfile

good = "```console\n$ haymow --version\nhaymow 9\n```\n"
# (what, page, exit status, what the checker must say)
pages = [
    ("a true example", good, 0, "1 examples run, 0 complaints"),
    ("lines left out", "```console\n$ haymow long\none\n...\nthree\n```\n", 0, "0 complaints"),
    ("the status of the command before",
     "```console\n$ haymow no\nno\n$ echo $?\n1\n```\n", 0, "2 examples run, 0 complaints"),
    ("a saved file",
     "```yaml file=a.yaml\nx: 1\n```\n\n```console\n$ cat a.yaml\nx: 1\n```\n", 0, "0 complaints"),
    ("blocks of other kinds", "```sh\n$ rm -rf everything\n```\n", 0, "0 examples run"),
    ("another output", good.replace("9", "8"), 1, "-haymow 8\n+haymow 9"),
    ("a line too few", "```console\n$ haymow long\none\nthree\n```\n", 1, "+two"),
    ("a line that never comes", "```console\n$ haymow long\n...\nfour\n```\n", 1, "prints something else"),
    ("another status", "```console\n$ haymow no\nno\n$ echo $?\n0\n```\n", 1, "-0\n+1"),
    ("a command not to be run", "```console\n$ sudo reboot\n```\n", 1, "mark the block `sh` or `text`"),
    ("no command", "```console\nhaymow 9\n```\n", 1, "begins with a line"),
]

stand_in = """#!/bin/sh
case $1 in
  --version) echo haymow 9 ;;
  long) printf 'one\\ntwo\\nthree\\n' ;;
  no) echo no; exit 1 ;;
esac
"""


def main():
    checker = pathlib.Path(__file__).with_name("docs_examples.py")
    with tempfile.TemporaryDirectory() as scratch:
        tree = pathlib.Path(scratch)
        program = tree / "bin" / "haymow"
        program.parent.mkdir()
        program.write_text(stand_in, encoding="utf-8")
        program.chmod(0o755)
        (tree / "docs").mkdir()
        page = tree / "docs" / "page.md"
        command = [sys.executable, checker, "--program", program, "--tree", tree,
                   "--work", tree / "work"]
        for what, text, status, sentence in pages:
            page.write_text(text, encoding="utf-8")
            done = subprocess.run(command, capture_output=True, text=True, check=False)
            if done.returncode != status or sentence not in done.stdout:
                sys.exit(f"{what}: status {done.returncode}, wanted {status} and `{sentence}`:\n"
                         f"{done.stdout}{done.stderr}")
        page.write_text(good.replace("9", "8"), encoding="utf-8")
        subprocess.run([*command, "--update"], capture_output=True, check=True)
        if page.read_text(encoding="utf-8") != good:
            sys.exit("--update does not write what the program prints")
    print(f"{len(pages)} pages judged rightly")


main()
