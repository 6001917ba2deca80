"""However a job file is damaged, it builds or it is refused in plain problems.

Set ONLOT_MUTATIONS to try more than the usual number.
"""

from __future__ import annotations

import collections
import os
import random
import re
import shutil
import time
from collections.abc import Callable, Iterator
from itertools import islice
from pathlib import Path

import pytest

from generator.findings.answers import first_to_do
from generator.leaving import told
from generator.pages.compose import compose
from generator.pages.context import Job
from generator.pictures import draw
from generator.problems import Problem, Refused
from generator.record.load import Workspace, look
from generator.results.whereabouts import misfits
from generator.worked import Worked, work_out

TOP = Path(__file__).parent.parent.parent
JOBS = ("demo-cattail-lake", "demo-larch-hollow")
COUNT = int(os.environ.get("ONLOT_MUTATIONS", "300"))
SEED = 20261006
SLOWEST_S = 2.0
DRAWN_EACH = 40  # figures take longest, so only one file in so many is drawn
STATES = ("final", "draft")
# Lists of words, many to a line.
# fmt: off
READINGS = (
    "10 min: 1/2 in above", "10:10 am: 1/2 in above", "10 min: 1/2 in", "x: y", ": ",
    "at invert: 10:10 am", "10:05 am to 10:36 am: 5 gal in 75 s", "a: b: c",
    "10:05 am: 5 gal in 75 s", "12 ft: joint, 1/2 in of water", "12 ft: sag",
    "tank to well: 14 ft by wheel", "tank to tank: 14 ft", "lid.jpg: A lid.",
    "as-built: 1979", "A: 18 ft", "{at: 10 min}", "[10 min, 1/2 in]",
)
VALUES = (
    "", "12", "-1", "1e3", "012", "null", "no", "yes", "~", "[]", "{}", "[4 in]",
    "[[[[[[[[[[[[[[1]]]]]]]]]]]]]]", "{a: {b: {c: 1}}}", "{}: {}", "- x", "*here",
    "&here 4 in", "!!int 4", "!!python/object:os.system 4", "'", '"', "|", ">-", "4 in",
    "0 in", "1/0 in", "9" * 60, "9" * 30 + " ft", "10-12 in", "10:05 am", "at invert",
    "../../x.jpg", "a" * 3000, "a: b: c", "\u200b", "٣ in", "½", "@", "%", "# gone",
    "<<: 3", "2026-10-06", "0 %", "0 gal", "0 min",
)
KEYS = ("visit", "sludge", "at", "from", "slugde", "<<", "?", "a.b", "a[0]", "")
# fmt: on

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


def _shape(chance: random.Random, lines: Lines) -> None:
    """Turn a word into a list or a map, a list into a map, a map into a word."""
    here = chance.randrange(len(lines))
    line = lines[here]
    key, colon, rest = line.partition(b": ")
    lead = b" " * (len(line) - len(line.lstrip(b" ")))
    match chance.randrange(7):
        case 0:
            lines[here] = key + colon + b"[" + rest + b"]"
        case 1:
            lines[here] = key + colon + b"{" + (rest or b"a") + b": 1}"
        case 2 if colon:
            lines[here : here + 1] = [key + b":", lead + b"  - " + rest]
        case 3 if colon:
            lines[here : here + 1] = [key + b":", lead + b"  " + rest + b": 1"]
        case 4:
            lines[here] = line.replace(b"- ", b"", 1)
        case 5:
            lines[here] = line.translate(bytes.maketrans(b"{}[]", b"[]{}"))
        case _:
            lines[here] = re.sub(rb"\{.*?\}|\[.*?\]", b"word", line)


def _not_yet(chance: random.Random, lines: Lines) -> None:
    """Leave one key out, as in a file that is still being written."""
    here = chance.choice([n for n, line in enumerate(lines) if b":" in line])
    line = lines[here]
    pairs = list(
        re.finditer(rb"[a-z_]+: [^,{}\[\]]*(?:\[[^\]]*\])?(?:, *|(?=}))", line)
    )
    if pairs:
        one = chance.choice(pairs)
        lines[here] = line[: one.start()] + line[one.end() :]
    else:
        del lines[here]


def _on_one_line(chance: random.Random, lines: Lines) -> None:
    """Damage a reading that stands on one line, or bring one in."""
    short = [n for n, line in enumerate(lines) if re.match(rb" *- [^{:]+:? ", line)]
    here = chance.choice(short) if short else chance.randrange(len(lines))
    lead, dash, rest = lines[here].partition(b"- ")
    words = re.split(rb"(:? +|,)", rest)
    match chance.randrange(6):
        case 0:
            lines[here] = lead + dash + chance.choice(READINGS).encode()
        case 1:
            lines.insert(here, lead + dash + chance.choice(READINGS).encode())
        case 2:
            chance.shuffle(words)
            lines[here] = lead + dash + b"".join(words)
        case 3:
            del words[chance.randrange(len(words))]
            lines[here] = lead + dash + b"".join(words)
        case 4:
            words[chance.randrange(len(words))] = chance.choice(VALUES).encode()
            lines[here] = lead + dash + b"".join(words)
        case _:
            lines[here] = lead + dash + rest.replace(b": ", b":")


def _section(chance: random.Random, lines: Lines) -> None:
    """Take a section out, say it twice, leave its head alone, or cut it short."""
    heads = [n for n, line in enumerate(lines) if re.match(rb"[a-z_]+:", line)]
    if not heads:
        return
    here = chance.randrange(len(heads))
    first = heads[here]
    last = heads[here + 1] if here + 1 < len(heads) else len(lines)
    match chance.randrange(5):
        case 0 | 1:
            del lines[first:last]
        case 2:
            lines[last:last] = lines[first:last]
        case 3:
            del lines[first + 1 : last]
        case _:
            del lines[first + chance.randrange(last - first) : last]


def _entry(chance: random.Random, lines: Lines) -> None:
    """Take an entry out of a list, or swap it with another place."""
    dashes = [n for n, line in enumerate(lines) if line.lstrip().startswith(b"- ")]
    if not dashes:
        return
    first = chance.choice(dashes)
    lead = lines[first].index(b"-")
    last = first + 1
    while last < len(lines) and lines[last].startswith(b" " * (lead + 1)):
        last += 1
    block = lines[first:last]
    del lines[first:last]
    if chance.randrange(3) == 0:
        there = chance.randrange(len(lines) + 1)
        lines[there:there] = block


WAYS: tuple[Callable[[random.Random, Lines], None], ...] = (
    _byte,
    _line,
    _key,
    _value,
    _indent,
    _shape,
    _not_yet,
    _not_yet,
    _on_one_line,
    _section,
    _entry,
)


@pytest.fixture(scope="module")
def workspace(tmp_path_factory: pytest.TempPathFactory) -> Workspace:
    root = tmp_path_factory.mktemp("mutations")
    shutil.copytree(TOP / "inspections", root / "inspections")
    return Workspace(root)


def damaged(chance: random.Random, raw: bytes) -> Iterator[bytes]:
    """Damage a file in one to three ways, again and again."""
    while True:
        lines = raw.split(b"\n")
        for _ in range(chance.choice((1, 1, 1, 2, 3))):
            if len(lines) > 1 and any(b":" in line for line in lines):
                chance.choice(WAYS)(chance, lines)
        yield b"\n".join(lines)


@pytest.mark.parametrize("state", STATES)
@pytest.mark.parametrize("job", JOBS)
def test_a_damaged_job_builds_or_is_refused(
    job: str, state: str, workspace: Workspace, capsys: pytest.CaptureFixture[str]
) -> None:
    chance = random.Random(f"{SEED} {job} {state}")
    whole = (TOP / "inspections" / f"{job}.yaml").read_bytes()
    whole = whole.replace(b"state: final", f"state: {state}".encode())
    outcomes: collections.Counter[str] = collections.Counter()
    many = COUNT // len(JOBS) // len(STATES)
    for number, raw in enumerate(islice(damaged(chance, whole), many)):
        workspace.job_file(job).write_bytes(raw)
        begun = time.process_time()
        problems = _problems(workspace, job, drawn=number % DRAWN_EACH == 0)
        assert time.process_time() - begun < SLOWEST_S, number
        outcomes["refused" if problems else "built"] += 1
        last_line = raw.count(b"\n") + raw.count(b"\r") + 1
        for problem in problems:
            assert problem.file == f"inspections/{job}.yaml"
            assert 1 <= problem.line <= last_line, (number, problem)
            assert problem.message.endswith("."), (number, problem)
    assert outcomes["built"] > many // 100
    assert outcomes["refused"] > many // 100
    with capsys.disabled():
        print(f"\n{many} damaged {job}, {state}: {dict(outcomes)}")


def _problems(workspace: Workspace, job: str, *, drawn: bool) -> tuple[Problem, ...]:
    """List the problems of a job; any other exception fails the test by itself."""
    opened = look(workspace, job)
    if opened.draft is not None:
        told(opened.draft, opened.items, opened.record)
    if opened.record is None:
        return opened.problems
    try:
        if found := misfits(opened.record):
            return tuple(found)
        worked = work_out(workspace, job)
        pages = compose(_job(worked))
    except Refused as refused:
        return refused.problems
    assert pages[0].path == "index.md"
    assert not drawn or draw(worked) is not None
    return ()


def _job(worked: Worked) -> Job:
    return Job(
        worked.record,
        worked.results,
        worked.findings,
        worked.answers,
        first_to_do(worked.findings),
        worked.pack,
        {},
        {photo.file: "photo" for photo in worked.record.inspection.photos},
    )
