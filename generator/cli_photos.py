"""The command of photographs: parse, call, print, exit code; nothing else."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import click

from generator.cli_common import PROBLEMS_FOUND, chosen, near, or_stop
from generator.problems import Problem, counted
from generator.record.load import Workspace


@click.command(short_help="Strip photographs of everything but the picture.")
@click.argument("files", nargs=-1, metavar="[FILE]...", type=click.Path(path_type=Path))
@click.option("--job", metavar="JOB", help="Put them into inspections/JOB/.")
@click.option("--keep", is_flag=True, help="Keep a HEIC, PNG or WebP beside its JPEG.")
@click.option("--check", "only", is_flag=True, help="Change nothing; tell what is.")
@click.pass_obj
def intake(
    workspace: Workspace,
    files: tuple[Path, ...],
    job: str | None,
    keep: bool,
    only: bool,
) -> None:
    """Shrink each photograph, turn it upright, and take out all but the picture.

    Place, camera, time, thumbnail and notes go, and a JPEG is written: in place, or
    with --job into the folder of that job. With --check, look at FILE, or at every
    photograph of the firm's folder.
    """
    if only and (job or keep):
        raise click.UsageError("--check changes nothing: leave out --job and --keep.")
    if only:
        return _check(workspace, files)
    if not files:
        raise click.UsageError("Name the photographs to take in.")
    return _take_in(workspace, files, job, keep)


def _check(workspace: Workspace, files: tuple[Path, ...]) -> None:
    from generator.intake import look_over, photographs  # keeps check quick

    if not files:
        chosen(workspace, ())  # tells where there is no folder of jobs
        files = tuple(Path(near(path)) for path in photographs(workspace))
    _end(look_over(files))
    click.echo(f"{counted(len(files), 'photograph')} looked at; nothing but pictures.")


def _take_in(
    workspace: Workspace, files: tuple[Path, ...], job: str | None, keep: bool
) -> None:
    from generator.intake import take_in, take_into_job  # keeps check quick

    if job is None:
        taken = take_in(files, keep=keep)
    else:
        [name] = chosen(workspace, (job,))
        taken = or_stop(lambda: take_into_job(workspace, name, files, keep=keep))
    for one in taken.done:
        click.echo(one.told, err=True)
    lines = dict.fromkeys(one.line for one in taken.done if one.line)
    if lines:
        click.echo('Write under "photos:" in the job file:', err=True)
    for line in lines:
        click.echo(f"  {line}")
    _end(taken.problems, f"; {counted(len(taken.done), 'photograph')} done")


def _end(problems: Iterable[Problem], done: str = "") -> None:
    told = sorted(set(problems))
    for problem in told:
        click.echo(str(problem), err=True)
    if told:
        click.echo(f"{counted(len(told), 'problem')}{done}.", err=True)
        raise SystemExit(PROBLEMS_FOUND)
