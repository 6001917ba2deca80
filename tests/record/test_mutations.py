"""However a job file is damaged, it loads or it is refused in plain problems."""

from __future__ import annotations

import os
import random
import shutil
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.problems import Problem, Refused
from generator.record.load import Workspace, load

TOP = Path(__file__).parent.parent.parent
JOBS = ("demo-cattail-lake", "demo-larch-hollow")
COUNT = int(os.environ.get("ONLOT_MUTATIONS", "600"))
SEED = 20261006
SLOWEST_S = 2.0
VALUES = (
    "",
    "12",
    "-1",
    "1e3",
    "012",
    "null",
    "no",
    "~",
    "[]",
    "{}",
    "[[[[[[[[[[[[[[1]]]]]]]]]]]]]]",
    "{a: {b: {c: 1}}}",
    "- x",
    "*here",
    "&here 4 in",
    "!!int 4",
    "!!python/object:os.system 4",
    "'",
    '"',
    "|",
    ">-",
    "4 in",
    "1/0 in",
    "9" * 60,
    "10-12 in",
    "10:05 am",
    "at invert",
    "../../x.jpg",
    "a" * 3000,
    "a: b: c",
    "\u200b",
    "٣ in",
    "½",
    "@",
    "%",
    "# gone",
    "<<: 3",
)
KEYS = (
    "visit",
    "tanks",
    "sludge",
    "at",
    "from",
    "slugde",
    "<<",
    "?",
    "a.b",
    "a[0]",
    "",
)

Lines = list[bytes]


def _byte(chance: random.Random, lines: Lines) -> None:
    raw = bytearray(b"\n".join(lines))
    for _ in range(chance.randint(1, 4)):
        place = chance.randrange(len(raw))
        match chance.randrange(3):
            case 0:
                raw[place] = chance.randrange(256)
            case 1:
                raw.insert(place, chance.choice(b"\t\"'[]{}:-#&*!|>%@`,\\\x00 \r\n"))
            case _:
                del raw[place]
    lines[:] = bytes(raw).split(b"\n")


def _line(chance: random.Random, lines: Lines) -> None:
    here, there = chance.randrange(len(lines)), chance.randrange(len(lines))
    match chance.randrange(5):
        case 0:
            del lines[here]
        case 1:
            lines.insert(there, lines[here])
        case 2:
            lines[here], lines[there] = lines[there], lines[here]
        case 3:
            del lines[min(here, there) : max(here, there)]
        case _:
            lines[here] = lines[here][: chance.randrange(len(lines[here]) + 1)]


def _key(chance: random.Random, lines: Lines) -> None:
    here = chance.choice([n for n, line in enumerate(lines) if b":" in line])
    key, colon, rest = lines[here].partition(b":")
    lead = key[: len(key) - len(key.lstrip(b" -"))]
    match chance.randrange(3):
        case 0:
            key = lead + chance.choice(KEYS).encode()
        case 1:
            key = key[:-1]
        case _:
            colon = b""
    lines[here] = key + colon + rest


def _value(chance: random.Random, lines: Lines) -> None:
    here = chance.choice([n for n, line in enumerate(lines) if b":" in line])
    key = lines[here].partition(b":")[0]
    lines[here] = key + b": " + chance.choice(VALUES).encode()


def _indent(chance: random.Random, lines: Lines) -> None:
    here = chance.randrange(len(lines))
    bare = lines[here].lstrip(b" ")
    lead = chance.choice((b"", b" ", b"\t", b"  ", b"   ", b"      ", b"- ", b"  - "))
    lines[here] = lead + bare


WAYS: tuple[Callable[[random.Random, Lines], None], ...] = (
    _byte,
    _line,
    _key,
    _value,
    _indent,
)


@pytest.fixture(scope="module")
def workspace(tmp_path_factory: pytest.TempPathFactory) -> Workspace:
    root = tmp_path_factory.mktemp("mutations")
    shutil.copytree(TOP / "inspections", root / "inspections")
    return Workspace(root)


def damaged(chance: random.Random, raw: bytes) -> bytes:
    """Damage a file in one to three ways."""
    lines = raw.split(b"\n")
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        if len(lines) > 1 and any(b":" in line for line in lines):
            chance.choice(WAYS)(chance, lines)
    return b"\n".join(lines)


@pytest.mark.parametrize("job", JOBS)
def test_a_damaged_job_loads_or_is_refused(job: str, workspace: Workspace) -> None:
    chance = random.Random(f"{SEED} {job}")
    whole = (TOP / "inspections" / f"{job}.yaml").read_bytes()
    outcomes: list[bool] = []
    for number in range(COUNT // len(JOBS)):
        raw = damaged(chance, whole)
        workspace.job_file(job).write_bytes(raw)
        begun = time.perf_counter()
        problems = _problems(workspace, job)
        assert time.perf_counter() - begun < SLOWEST_S, number
        outcomes.append(not problems)
        for problem in problems:
            assert problem.file == f"inspections/{job}.yaml"
            assert 0 <= problem.line <= raw.count(b"\n") + raw.count(b"\r") + 1
            assert problem.message.endswith("."), (number, problem)
    assert len(outcomes) > outcomes.count(True) > 0


def _problems(workspace: Workspace, job: str) -> tuple[Problem, ...]:
    """List the problems of a job; any other exception fails the test by itself."""
    try:
        load(workspace, job)
    except Refused as refused:
        return refused.problems or (Problem(job, -1, "", "Refused without a problem"),)
    return ()
