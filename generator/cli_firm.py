"""The commands of the firm's own folder: its beginning, and the register of jobs."""

from __future__ import annotations

from pathlib import Path

import click

from generator.cli_common import chosen, near, or_stop
from generator.cli_links import on_option
from generator.quantity import Day
from generator.record.load import Workspace


@click.command(short_help="Write the content of a firm's private repository.")
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
def start(folder: Path) -> None:
    """Write a firm file, an example, pipelines and a git hook into FOLDER."""
    from generator.start.write import start as write  # keeps check quick

    for place in or_stop(lambda: write(folder)):
        click.echo(near(folder / place))
    click.echo("Read README.md there: what to do before the first report.")


@click.command(short_help="Write the register of all jobs, for the office alone.")
@on_option
@click.pass_obj
def office(workspace: Workspace, on: Day) -> None:
    """List all jobs with state, findings, links and what falls due, in office/."""
    from generator.office.write import write_office  # keeps check quick

    chosen(workspace, ())
    click.echo(near(or_stop(lambda: write_office(workspace, on.iso))))
