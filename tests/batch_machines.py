"""Runs the commands of docs/how-to/answer-on-several-machines.md as they stand there.

GNU parallel over ssh to two test hosts, which are this machine twice, and an array job
of a Slurm cluster of one node, all set up in a scratch folder with keys of their own and
taken down again. Their answers must be the bytes of a single run. Ends with 77, and
says why, where the packages are not installed.
"""

import argparse
import contextlib
import getpass
import json
import os
import pathlib
import random
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time

from batch_runs import base, horse

needed = {"parallel": "parallel", "sshd": "openssh-server", "ssh": "openssh-client",
          "slurmctld": "slurmctld", "slurmd": "slurmd", "sbatch": "slurm-client",
          "munged": "munge"}


def missing():
    path = os.environ["PATH"] + ":/usr/sbin:/sbin"
    return [package for program, package in needed.items()
            if not shutil.which(program, path=path)]


def free_port():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return taken.getsockname()[1]


def blocks_of(page, heading):
    """The sh blocks below a heading of the page."""
    section = page.split(f"## {heading}")[1].split("\n## ")[0]
    return re.findall(r"```sh\n(.*?)```", section, re.DOTALL)


@contextlib.contextmanager
def running(*commands, folder):
    """Daemons in the foreground; those, and what they have started, end with the block."""
    started = []
    try:
        for command in commands:
            log = (folder / f"{pathlib.Path(command[0]).name}-{len(started)}.out").open("w")
            started.append(subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=log,
                                            stderr=log, start_new_session=True))
        yield
    finally:
        for process in reversed(started):
            process.send_signal(signal.SIGTERM)
        for process in started:
            try:
                process.wait(timeout=5)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()


def wait_for(what, test, seconds=20):
    end = time.monotonic() + seconds
    while not test():
        if time.monotonic() > end:
            sys.exit(f"{what} did not come up in {seconds} s")
        time.sleep(0.05)


def can_connect(port):
    try:
        with socket.create_connection(("127.0.0.1", port), timeout=1):
            return True
    except OSError:
        return False


def run(script, folder, environment, good=(0,)):
    done = subprocess.run(["bash", "-euc", script.replace("/srv/batch", str(folder))],
                          env=environment, cwd=folder, stdin=subprocess.DEVNULL,
                          capture_output=True, encoding="utf-8", timeout=100, check=False)
    if done.returncode not in good:
        sys.exit(f"ended with {done.returncode}:\n{script}\n{done.stdout}\n{done.stderr}")


def without_place(text):
    """The answers, with the place of a mistake within its part left out."""
    answers = [json.loads(line) for line in text.splitlines()]
    for answer in answers:
        for found in answer.get("diagnostics", []):
            del found["file"], found["line"]
            found["note"] = re.sub(r"in line \d+", "in line N", found["note"])
    return answers


def compare(what, answers, single):
    """Byte for byte but for where in its part a mistake stands."""
    told = answers.read_text("utf-8")
    sound = [line for line in told.splitlines() if '"status":"input"' not in line]
    wanted = [line for line in single.splitlines() if '"status":"input"' not in line]
    if sound != wanted or without_place(told) != without_place(single):
        sys.exit(f"{what}: not the answers of a single run")
    print(f"{what}: {len(sound)} lines are those of a single run, "
          f"{len(told.splitlines()) - len(sound)} but for their place")
    answers.unlink()


def test_parallel(page, folder, environment, single):
    """Two hosts that are this machine, with throw-away keys."""
    for key in ("host", "user"):
        subprocess.run(["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", folder / key],
                       check=True)
    if os.geteuid() == 0:
        pathlib.Path("/run/sshd").mkdir(mode=0o755, exist_ok=True)
    ports = {name: free_port() for name in ("barn1", "barn2")}
    shutil.copy(folder / "user.pub", folder / "authorized")
    commands = []
    client = ""
    for name, port in ports.items():
        (folder / f"{name}.conf").write_text(
            f"Port {port}\nListenAddress 127.0.0.1\nHostKey {folder}/host\n"
            f"AuthorizedKeysFile {folder}/authorized\nPidFile {folder}/{name}.pid\n"
            "StrictModes no\nUsePAM no\nPasswordAuthentication no\nPermitRootLogin yes\n"
            f"SetEnv PATH={environment['PATH']}\n", encoding="utf-8")
        commands.append(["/usr/sbin/sshd", "-D", "-e", "-f", str(folder / f"{name}.conf")])
        client += (f"Host {name}\n  HostName 127.0.0.1\n  Port {port}\n  User {getpass.getuser()}\n"
                   f"  IdentityFile {folder}/user\n  IdentitiesOnly yes\n  BatchMode yes\n"
                   f"  UserKnownHostsFile {folder}/known\n  StrictHostKeyChecking accept-new\n"
                   "  LogLevel ERROR\n")
    (folder / "ssh_config").write_text(client, encoding="utf-8")
    (script,) = blocks_of(page, "With GNU parallel over ssh")
    with running(*commands, folder=folder):
        for name, port in ports.items():
            wait_for(name, lambda port=port: can_connect(port))
        # Records of some hundred bytes: small blocks, so that both hosts get several.
        script = script.replace("--block 200k", "--block 8k")
        run(script, folder, {**environment, "PARALLEL_SSH": f"ssh -F {folder}/ssh_config"},
            good=range(0, 102))
    for log in folder.glob("sshd-*.out"):
        if "Accepted publickey" not in log.read_text("utf-8"):
            sys.exit(f"one of the hosts had nothing to do: {log.name}")
    compare("GNU parallel over ssh", folder / "answers.jsonl", single)


def slurm_conf(folder, host):
    return f"""
ClusterName=test
SlurmctldHost={host}(127.0.0.1)
SlurmUser={getpass.getuser()}
SlurmdUser={getpass.getuser()}
AuthType=auth/munge
AuthInfo=socket={folder}/munge/socket
SlurmctldPort={free_port()}
SlurmdPort={free_port()}
StateSaveLocation={folder}/state
SlurmdSpoolDir={folder}/spool
SlurmctldPidFile={folder}/slurmctld.pid
SlurmdPidFile={folder}/slurmd.pid
SlurmctldLogFile={folder}/slurmctld.log
SlurmdLogFile={folder}/slurmd.log
ProctrackType=proctrack/pgid
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
MpiDefault=none
ReturnToService=2
SchedulerParameters=sched_interval=1,batch_sched_delay=0
NodeName={host} NodeAddr=127.0.0.1 CPUs={os.cpu_count()} State=UNKNOWN
PartitionName=main Nodes={host} Default=YES MaxTime=INFINITE State=UP
"""


def test_slurm(page, folder, environment, single):
    """A cluster of this machine alone."""
    host = socket.gethostname().split(".")[0]
    for name in ("munge", "state", "spool"):
        (folder / name).mkdir(mode=0o700)
    (folder / "munge" / "key").write_bytes(os.urandom(128))
    (folder / "munge" / "key").chmod(0o400)
    (folder / "slurm.conf").write_text(slurm_conf(folder, host), encoding="utf-8")
    environment = {**environment, "SLURM_CONF": str(folder / "slurm.conf")}
    os.environ["SLURM_CONF"] = environment["SLURM_CONF"]
    munge = folder / "munge"
    cut, job, submit = blocks_of(page, "With Slurm, as an array job")
    (folder / "batch.sh").write_text(job.replace("/srv/batch", str(folder)), encoding="utf-8")
    with running(["/usr/sbin/munged", "--force", "--foreground", f"--socket={munge}/socket",
                  f"--key-file={munge}/key", f"--pid-file={munge}/pid",
                  f"--log-file={munge}/log", f"--seed-file={munge}/seed"], folder=folder):
        wait_for("munge", (munge / "socket").exists)
        with running(["/usr/sbin/slurmctld", "-D", "-i"], ["/usr/sbin/slurmd", "-D", "-N", host],
                     folder=folder):
            wait_for("Slurm", lambda: "idle" in subprocess.run(
                ["sinfo", "--noheader"], env=environment, capture_output=True, encoding="utf-8",
                check=False).stdout)
            run(cut, folder, environment)
            # Two of the tasks have a record with mistakes, one a refused horse.
            run(submit.replace("batch.sh\n", "batch.sh || true\n"), folder, environment)
    compare("Slurm array job", folder / "answers.jsonl", single)


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--program", type=pathlib.Path, required=True)
    arguments.add_argument("--tree", type=pathlib.Path, required=True)
    asked = arguments.parse_args()
    if missing():
        print(f"skipped: not installed: {' '.join(missing())}")
        return 77
    page = (asked.tree / "docs/how-to/answer-on-several-machines.md").read_text("utf-8")
    program = asked.program.resolve()
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        environment = {**os.environ, "PATH": f"{program.parent}:{os.environ['PATH']}",
                       "HOME": str(folder)}
        (folder / ".parallel").mkdir()
        (folder / ".parallel" / "will-cite").touch()
        (folder / "base.yaml").write_text(base, encoding="utf-8")
        draw = random.Random(17)
        lines = [json.dumps({"key": f"K{n:04}", "horses": [horse(draw, n)]}) for n in range(400)]
        lines[50] = '{"key": "torn", "horses": [{"name": "Fern"'
        lines[250] = lines[250].replace(" kg", "")
        lines[350] = lines[350].replace('"work"', '"health": ["colic"], "work"')
        (folder / "records.jsonl").write_text("\n".join(lines) + "\n", encoding="utf-8")
        done = subprocess.run([program, "batch", folder / "records.jsonl", "--base",
                               folder / "base.yaml", "-q"], capture_output=True,
                              encoding="utf-8", check=False)
        if done.returncode != 3:
            sys.exit(f"the single run ended with {done.returncode}: {done.stderr}")
        test_parallel(page, folder, environment, done.stdout)
        test_slurm(page, folder, environment, done.stdout)
    return 0


if __name__ == "__main__":
    sys.exit(main())
