"""Run commands of one copy of onlot after another, each in a process of its own.

What onlot stands on is loaded once; each command is a fork that loads onlot itself
anew, from the folder it is started in.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

STANDS_ON = """
import click, jinja2, jsonschema, markdown, matplotlib.figure, mkdocs.commands.build
import material, numpy, PIL.Image, pillow_heif, pymdownx, shapely, uncertainties, yaml
import matplotlib.backends.backend_svg
"""


class Onlot:
    """The commands of a copy of onlot, whose files a test may change.

    Parameters
    ----------
    folder : pathlib.Path
        The copy, which holds ``generator/``.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.runner = subprocess.Popen(
            [sys.executable, __file__],
            cwd=folder,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def run(self, *words: str) -> tuple[int, str]:
        """Give the exit code of a command, and what it printed."""
        assert self.runner.stdin
        assert self.runner.stdout
        print(json.dumps(words), file=self.runner.stdin, flush=True)
        code, text = json.loads(self.runner.stdout.readline())
        return code, text

    def end(self) -> None:
        """End the process."""
        self.runner.communicate()


def serve() -> None:
    """Run the commands that stand on the standard input, line by line."""
    sys.path.insert(0, os.getcwd())
    told = Path("told.txt").resolve()
    for line in sys.stdin:
        child = os.fork()
        if child == 0:
            with told.open("w", encoding="utf-8") as file:
                os.dup2(file.fileno(), 1)
                os.dup2(file.fileno(), 2)
            command(json.loads(line))
        _, status = os.waitpid(child, 0)
        answer = (os.waitstatus_to_exitcode(status), told.read_text(encoding="utf-8"))
        print(json.dumps(answer), flush=True)


def command(words: list[str]) -> None:
    """Run one command and end this process."""
    code = 70  # an error of the program: a traceback stands in what it told
    try:
        from generator.cli import main  # of the copy, as it stands now

        main(words)
    except SystemExit as ended:
        code = ended.code if isinstance(ended.code, int) else 1
    except BaseException:
        sys.excepthook(*sys.exc_info())
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


if __name__ == "__main__":
    sys.path[0] = os.getcwd()
    exec(STANDS_ON)
    serve()
