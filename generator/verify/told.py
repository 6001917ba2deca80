"""What verifying found, told in a terminal or as data."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any

from generator.problems import counted
from generator.verify.verdict import Verdict

IDENTICAL = "identical: {}, from commit {}."
OUR_OWN = "our own files: {} as onlot writes them."
NOT_ITSELF = "It is not what its own record.json says:"
NOT_REBUILT = "It is not what the commit {} gives:"
ITSELF = "It is what its own record.json says."
NOT_OURS = "What lies beside the reports is not what onlot put there:"

Named = Callable[[Path], str]


def as_data(found: Iterable[Verdict], named: Named) -> dict[str, Any]:
    """Give what was found as plain data."""
    reports = [_data(one, named) for one in found]
    return {"identical": all(one["identical"] for one in reports), "folders": reports}


def _data(one: Verdict, named: Named) -> dict[str, Any]:
    return {
        "folder": named(one.folder),
        "job": one.job,
        "report": one.report,
        "commit": one.commit,
        "identical": one.identical,
        "files": one.files,
        "differs_from_record": list(one.own),
        "differs_from_rebuild": list(one.rebuilt),
        "cannot_be_told": list(one.untold),
        "versions": list(one.versions),
        "notes": list(one.notes),
    }


def as_text(one: Verdict, named: Named) -> str:
    """Tell of one report, or of our own files."""
    return "\n".join(_lines(one, named(one.folder)))


def _lines(one: Verdict, folder: str) -> Iterator[str]:
    if one.beside:
        yield from _of_our_own(one, folder)
        return
    who = one.job + (f", report {one.report}" if one.report else "")
    head = f"{folder} ({who})" if who else folder
    if one.identical:
        files = IDENTICAL.format(counted(one.files, "file"), one.commit)
        yield f"{head}: {files}"
    else:
        yield f"{head}:"
        yield from _part(NOT_ITSELF if one.own else ITSELF, one.own)
        if one.rebuilt:
            yield from _part(NOT_REBUILT.format(one.commit), one.rebuilt)
        yield from (f"  {line}" for line in one.untold)
    yield from (f"  {line}" for line in (*one.versions, *one.notes))


def _of_our_own(one: Verdict, folder: str) -> Iterator[str]:
    if one.own:
        yield f"{folder}:"
        yield from _part(NOT_OURS, one.own)
    else:
        yield f"{folder}: {OUR_OWN.format(one.files)}"


def _part(title: str, lines: Iterable[str]) -> Iterator[str]:
    yield f"  {title}"
    yield from (f"    {line}" for line in lines)
