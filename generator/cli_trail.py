"""The commands about what was kept: parse, call, print, exit code; nothing else."""

from __future__ import annotations

import json

import click

from generator.cli_common import chosen, or_stop
from generator.cli_links import on_option
from generator.quantity import Day
from generator.record.load import Workspace


@click.command(short_help="Tell what is older than the years of keeping.")
@on_option
@click.option("--json", "as_json", is_flag=True, help="Print for machines.")
@click.pass_obj
def retain(workspace: Workspace, on: Day, as_json: bool) -> None:
    """Tell which jobs are older than keep_years of the firm file, and what they hold.

    It says what removing each would take away, how to do that by hand, and what git
    keeps then. Nothing is removed, and no history is rewritten.
    """
    from generator.retain_told import as_data, as_text  # keeps check quick
    from generator.retaining import retained  # keeps check quick

    chosen(workspace, ())  # tells where there is no folder of jobs
    found = or_stop(lambda: retained(workspace, on.iso))
    if as_json:
        click.echo(json.dumps(as_data(found), indent=2, ensure_ascii=False))
    else:
        click.echo(as_text(found))


@click.command(short_help="Tell what was changed in JOB, when and by whom.")
@click.argument("job")
@click.option("--json", "as_json", is_flag=True, help="Print for machines.")
@click.pass_obj
def history(workspace: Workspace, job: str, as_json: bool) -> None:
    """Tell each revision of JOB in the words of its job file, newest first.

    Each has its date, its author, the reports given with it, what changed in the file,
    and which answers, findings and numbers came out differently because of it.
    """
    from generator import history_told  # keeps check quick
    from generator.histories import history as tell  # keeps check quick
    from generator.trail.past import past_of  # keeps check quick

    [name] = chosen(workspace, (job,))
    found = or_stop(lambda: tell(workspace, past_of(workspace), name))
    if as_json:
        data = history_told.as_data(found)
        click.echo(json.dumps(data, indent=2, ensure_ascii=False))
    else:
        click.echo(history_told.as_text(found))
