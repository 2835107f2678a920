"""`haymow page` as a program of a test: started on a folder, and ended."""

import contextlib
import re
import signal
import subprocess


class Served:
    """`haymow page` on a folder, stopped or killed at the end."""

    def __init__(self, program, folder):
        self.process = subprocess.Popen([program, "page", "--no-browser", folder],
                                        stderr=subprocess.PIPE, text=True)
        self.address = re.search(r"http://\S+", self.process.stderr.readline()).group()
        self.port = int(self.address.rstrip("/").rsplit(":", 1)[1])

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.process.kill()  # where it has ended already, nothing happens

    @contextlib.contextmanager
    def held(self):
        """Time stands still for the program, so that what it is at can be looked at."""
        self.process.send_signal(signal.SIGSTOP)
        try:
            yield
        finally:
            self.process.send_signal(signal.SIGCONT)

    def stop(self):
        self.process.terminate()
        assert self.process.wait(timeout=10) == 0, self.process.returncode

    def kill(self):
        self.process.kill()
        self.process.wait(timeout=10)
