"""The command that verifies published reports: parse, call, print, exit code."""

from __future__ import annotations

import json

import click

from generator.cli_common import PROBLEMS_FOUND, near
from generator.problems import Refused
from generator.record.load import Workspace


@click.command(short_help="Tell whether a published report is what was given.")
@click.argument("what", metavar="PATH_OR_JOB")
@click.option("--commit", default="", help="Rebuild from it, not from the one named.")
@click.option("--json", "as_json", is_flag=True, help="Print for machines.")
@click.pass_obj
def verify(workspace: Workspace, what: str, commit: str, as_json: bool) -> None:
    """Tell whether a published report is what was given.

    PATH is the folder of one report, or a copy of it, or the whole published folder;
    JOB finds its folder in public/. The folder is held against its own record.json.
    Then the report is made again from the commit that record.json names, and every
    file is compared. Nothing is changed.
    """
    from generator.verify.told import as_data, as_text  # keeps check quick
    from generator.verify.verdict import verify as find  # keeps check quick

    found = []
    try:
        for one in find(workspace, what, commit):
            found.append(one)
            if not as_json:
                click.echo(as_text(one, near))
    except Refused as refused:
        click.echo(str(refused), err=True)
        raise SystemExit(PROBLEMS_FOUND) from None
    if as_json:
        click.echo(json.dumps(as_data(found, near), indent=2, ensure_ascii=False))
    if not all(one.identical for one in found):
        raise SystemExit(PROBLEMS_FOUND)
