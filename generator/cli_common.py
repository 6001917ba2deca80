"""What every command does alike: names of jobs, problems on the terminal, exit code."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click

from generator.problems import Problem, Refused, counted
from generator.record.load import Workspace

PROBLEMS_FOUND = 1


def chosen(workspace: Workspace, jobs: Iterable[str]) -> list[str]:
    """Take job names as typed: a name, a file name or a path to the file.

    All jobs where none is named.
    """
    if not workspace.inspections.is_dir():
        stop_at(
            [
                Problem(
                    workspace.root.name + "/",
                    0,
                    "",
                    "There is no folder inspections/ here.",
                    "Go to the firm's folder, or name it with --workspace.",
                )
            ]
        )
    named = [_job_name(workspace, job) for job in jobs]
    return list(dict.fromkeys(named)) or or_stop(workspace.jobs)


def _job_name(workspace: Workspace, typed: str) -> str:
    """Take a name, or a path into inspections/; leave others as they are, to refuse."""
    path = Path(typed)
    if path.name == typed:
        return typed.removesuffix(".yaml")
    ours = workspace.inspections.resolve()
    try:
        homes = [(top / path.parent).resolve() for top in (Path.cwd(), workspace.root)]
    except (OSError, ValueError, RuntimeError):  # no path at all, or a loop
        return typed
    return path.name.removesuffix(".yaml") if ours in homes else typed


def or_stop(work: Any) -> Any:
    """Do some work; tell every problem and end with exit code 1 where it is refused."""
    try:
        return work()
    except Refused as refused:
        stop_at(refused.problems)


def stop_at(problems: Iterable[Problem]) -> None:
    """Tell every problem and end with exit code 1."""
    told = sorted(set(problems))
    for problem in told:
        click.echo(str(problem), err=True)
    end(len(told))


def tell_left(problems: Iterable[Problem], jobs: int, words: str) -> None:
    """Tell the problems of jobs that were left aside, and end with exit code 1.

    Parameters
    ----------
    problems : iterable of Problem
        What is wrong; nothing is told, and nothing ended, where there is none.
    jobs : int
        How many jobs were left. [-]
    words : str
        What became of them, with ``problems``, ``jobs`` and ``them`` left open.
    """
    told = sorted(set(problems))
    for problem in told:
        click.echo(str(problem), err=True)
    if told:
        count, them = counted(len(told), "problem"), "it" if jobs == 1 else "them"
        left = words.format(problems=count, jobs=counted(jobs, "job"), them=them)
        click.echo(left, err=True)
        raise SystemExit(PROBLEMS_FOUND)


def end(count: int) -> None:
    """End with exit code 1 where there were problems."""
    if count:
        words = counted(count, "problem")
        click.echo(f"{words}; nothing published has changed.", err=True)
        raise SystemExit(PROBLEMS_FOUND)


def near(page: Path) -> str:
    """Name a file as seen from here."""
    try:
        return page.resolve().relative_to(Path.cwd()).as_posix()
    except ValueError:
        return page.as_posix()
