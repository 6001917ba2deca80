"""The command that seals a report into one file, and prints the link that opens it."""

from __future__ import annotations

from pathlib import Path

import click

from generator.cli_common import chosen, near, or_stop
from generator.record.load import Workspace

WHO_READS = (
    "Whoever has the whole link can read the report. The part after # is the key; it "
    "stands in no file."
)


@click.command(short_help="Seal JOB into one encrypted file, opened by its link.")
@click.argument("job")
@click.option(
    "--out",
    type=click.Path(dir_okay=False, path_type=Path),
    help="The file to write; one in office/sealed/ when left out.",
)
@click.pass_obj
def seal(workspace: Workspace, job: str, out: Path | None) -> None:
    """Seal the report of JOB into one encrypted file, for hosts that list folders.

    Upload the file as it is, and give the client the whole link.
    """
    from generator.sealing import seal_job  # keeps check quick

    [name] = chosen(workspace, (job,))
    sealed = or_stop(lambda: seal_job(workspace, name, out))
    click.echo(f"{name}: {near(sealed.file)}")
    click.echo(sealed.link)
    click.echo(WHO_READS)
