"""Stops the real program in the middle of a long command, as Ctrl-C does: it must end
soon with status 130, say what it knows, and leave no half-written file. Then the same
on a terminal of ours, where a line of progress must come and be gone at the end.
"""

import argparse
import json
import os
import pathlib
import pty
import signal
import subprocess
import tempfile
import time

# A loaded machine, and a build that checks every access: "about a second" otherwise.
longest_s = 20.0


def start(program, arguments, folder, **streams):
    # Started from the background of a script, a program inherits that SIGINT is ignored.
    return subprocess.Popen([program, *arguments], cwd=folder, **streams,
                            preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL))


def stop(run, number, after_s):
    time.sleep(after_s)
    assert run.poll() is None, "it was done before it could be stopped: a longer yard is needed"
    run.send_signal(number)
    return run.communicate(timeout=longest_s)


def check_stopped(program, folder, command, number, after_s):
    arguments = [command, "--format", "json", "-o", "report.json", "longacre.yaml"]
    run = start(program, arguments, folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    out, err = stop(run, number, after_s)
    assert run.returncode == 130, f"{command}: status {run.returncode}: {err.decode()}"
    assert (out, err) == (b"", b""), f"{command} said {out!r} and {err!r}"
    left = sorted(path.name for path in folder.iterdir())
    assert left == ["longacre.yaml", "report.json"], f"{command} left {left}"
    report = json.loads((folder / "report.json").read_text(encoding="utf-8"))
    assert report["stopped"] is True, f"{command} does not say that it was stopped"
    (folder / "report.json").unlink()


def check_files(program, folder):
    """Files beside the report are not written; the text goes to standard output."""
    run = start(program, ["winter", "--orders", "orders.csv", "longacre.yaml"], folder,
                stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    out, err = stop(run, signal.SIGINT, 2.0)
    assert run.returncode == 130 and err == b"", f"status {run.returncode}, {err!r}"
    assert b"Stopped before it was done" in out, out.decode()
    assert sorted(path.name for path in folder.iterdir()) == ["longacre.yaml"]


def check_twice(program, folder):
    run = start(program, ["winter", "longacre.yaml"], folder,
                stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    time.sleep(1.0)
    run.send_signal(signal.SIGINT)
    time.sleep(0.02)  # two that come together are one
    run.send_signal(signal.SIGINT)
    out, err = run.communicate(timeout=longest_s)
    assert run.returncode == 130 and err == b"", f"status {run.returncode}, {err!r}"


def on_terminal(program, arguments, folder):
    """What a person sees on standard error: the bytes, and what is left in the line."""
    ours, theirs = pty.openpty()
    run = start(program, arguments, folder, stdout=subprocess.PIPE, stderr=theirs)
    os.close(theirs)
    run.communicate(timeout=300)
    assert run.returncode == 0, run.returncode
    seen = b""
    try:
        while chunk := os.read(ours, 65536):
            seen += chunk
    except OSError:  # the other end is closed, and all is read
        pass
    os.close(ours)
    line, at = {}, 0
    for letter in seen.decode():
        if letter == "\r":
            at = 0
        elif letter == "\b":
            at -= 1
        else:
            line[at], at = letter, at + 1
    return seen.decode(), "".join(line.values()).strip()


def check_progress(program, folder):
    seen, left = on_terminal(program, ["winter", "yard.yaml"], folder)
    for words in ("planning the winter: week by week", "what a week more would cost"):
        assert words in seen, f"{words!r} is not in {seen!r}"
    assert left == "", f"{left!r} is left on the terminal"
    seen, _ = on_terminal(program, ["winter", "--quiet", "yard.yaml"], folder)
    assert seen == "", f"--quiet, and yet {seen!r}"


def check_draws(program, folder):
    """Stopped between two of the winters that are drawn, it tells of those that are done."""
    ours, theirs = pty.openpty()
    run = start(program, ["winter", "--format", "json", "-o", "report.json", "long-winter.yaml"],
                folder, stdout=subprocess.PIPE, stderr=theirs)
    os.close(theirs)
    seen = b""
    while b": 12 of 100 winters" not in seen:  # a test that hangs is ended by its own limit
        seen += os.read(ours, 65536)
    run.send_signal(signal.SIGINT)
    try:
        while os.read(ours, 65536):
            pass
    except OSError:
        pass
    os.close(ours)
    run.communicate(timeout=longest_s)
    assert run.returncode == 130, run.returncode
    report = json.loads((folder / "report.json").read_text(encoding="utf-8"))
    chances = report["chances"]
    assert report["stopped"] is True and report["otherwise"] is not None
    assert 12 <= len(chances["draws"]) < 100, f"{len(chances['draws'])} draws"
    assert chances["least_cost_middle"]["at_most"] is not None


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", required=True)
    parser.add_argument("--tree", type=pathlib.Path, required=True)
    options = parser.parse_args()

    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        yard = folder / "longacre.yaml"
        yard.write_bytes((options.tree / "scenarios/examples/longacre.yaml").read_bytes())
        check_stopped(options.program, folder, "winter", signal.SIGINT, 0.5)
        check_stopped(options.program, folder, "winter", signal.SIGTERM, 1.5)
        check_stopped(options.program, folder, "stretch", signal.SIGINT, 1.0)
        check_files(options.program, folder)
        check_twice(options.program, folder)
        example = options.tree / "scenarios/examples/long-winter.yaml"
        (folder / "long-winter.yaml").write_bytes(example.read_bytes())
        check_draws(options.program, folder)
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        case = options.tree / "tests/cases/winter-of-a-small-yard/input.yaml"
        (folder / "yard.yaml").write_bytes(case.read_bytes())
        check_progress(options.program, folder)
    print("stopped six times: status 130, nothing half-written")


if __name__ == "__main__":
    main()
