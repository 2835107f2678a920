"""`haymow page` as a program of a test: started on a folder, and ended."""

import re
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

    def stop(self):
        self.process.terminate()
        assert self.process.wait(timeout=10) == 0, self.process.returncode

    def kill(self):
        self.process.kill()
        self.process.wait(timeout=10)
