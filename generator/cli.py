"""The commands: parse, call, print, exit code; nothing else.

Rooms that ``onlot check`` does not need are imported inside the commands that do, so
that a check on a phone answers at once.
"""

from __future__ import annotations

import json
from pathlib import Path

import click

from generator import (
    __version__,
    cli_build,
    cli_firm,
    cli_links,
    cli_photos,
    cli_seal,
    cli_trail,
    cli_verify,
)
from generator.annotate import GITHUB, GITLAB, HOSTS, annotation, quality_report
from generator.cli_common import PROBLEMS_FOUND, chosen, end, near, or_stop
from generator.codes.layers import code_for, own_packs, packs_called
from generator.problems import Problem, Refused
from generator.record.link_book import wrong_links
from generator.record.load import Opened, Workspace, look
from generator.record.slips_when_final import FINAL
from generator.results.whereabouts import misfits
from generator.standing import Alterations


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="onlot")
@click.option(
    "--workspace",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("."),
    help="The firm's folder, which holds inspections/.",
)
@click.pass_context
def main(context: click.Context, workspace: Path) -> None:
    """Compute, judge and publish septic inspections, one job file each."""
    context.obj = Workspace(workspace.resolve())


@main.command()
@click.argument("jobs", nargs=-1, metavar="[JOB]...")
@click.option("--annotate", type=click.Choice(HOSTS), help="Tell a git host as well.")
@click.pass_obj
def check(workspace: Workspace, jobs: tuple[str, ...], annotate: str | None) -> None:
    """Check job files and tell every problem at once."""
    told: dict[Problem, None] = {}  # one of the firm's file is told once
    names = chosen(workspace, jobs)
    altered = Alterations(workspace, names)
    for job in names:
        opened = look(workspace, job)
        problems = opened.problems or _worked_out(opened)
        problems = (*problems, *wrong_links(workspace, job), *altered(job))
        for problem in problems:
            if problem not in told:
                click.echo(str(problem), err=True)
                if annotate == GITHUB:
                    click.echo(annotation(problem))
            told[problem] = None
        if annotate == GITLAB:
            continue
        if not problems:
            click.echo(f"{job}: no problems")
        for line in _before_leaving(opened):
            click.echo(line)
    if annotate == GITLAB:
        click.echo(quality_report(told))
    end(len(told))


@main.command(short_help="Print every number of JOB with its working.")
@click.argument("job")
@click.option("--json", "as_json", is_flag=True, help="Print for machines.")
@click.pass_obj
def results(workspace: Workspace, job: str, as_json: bool) -> None:
    """Print every result of JOB with its working, the findings and the answers."""
    from generator.told import as_data, as_text  # keeps check quick
    from generator.worked import work_out  # keeps check quick

    [name] = chosen(workspace, (job,))
    worked = or_stop(lambda: work_out(workspace, name))
    if as_json:
        click.echo(json.dumps(as_data(worked), indent=2, ensure_ascii=False))
    else:
        click.echo(as_text(worked))


@main.command(short_help="Show JOB on this machine, and again when it changes.")
@click.argument("job")
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=0,
    help="Port on this machine; any free one at 0.",
)
@click.option("--once", is_flag=True, help="Build, name the page and end.")
@click.pass_obj
def preview(workspace: Workspace, job: str, port: int, once: bool) -> None:
    """Build JOB for this machine only, show it, and build again when it changes."""
    from generator.preview import Preview  # keeps check quick

    [name] = chosen(workspace, (job,))
    shown = Preview(workspace, name)
    page = or_stop(shown.build)
    click.echo(f"{name}: {near(page)}")
    if not once:
        or_stop(lambda: shown.serve(port, click.echo))


@main.command(short_help="Print JOB to a PDF, for this machine only.")
@click.argument("job")
@click.option(
    "--out",
    type=click.Path(dir_okay=False, path_type=Path),
    help="The PDF to write; office/JOB.pdf when left out.",
)
@click.option("--a4", is_flag=True, help="Print on A4 and not on US Letter.")
@click.option("--draft", is_flag=True, help="Print a draft of the next report.")
@click.pass_obj
def paper(
    workspace: Workspace, job: str, out: Path | None, a4: bool, draft: bool
) -> None:
    """Print everything about JOB to one PDF with an installed Chromium."""
    from generator import paper as printer  # keeps check quick

    [name] = chosen(workspace, (job,))
    file = out or printer.default_file(workspace, name)
    sheet = printer.Sheet(file, printer.A4 if a4 else printer.LETTER, draft)
    printed = or_stop(lambda: printer.print_job(workspace, name, sheet))
    click.echo(f"{name}: {near(printed)}")


@main.command(short_help="Tell what a section, a key or an amount may hold.")
@click.argument("words", nargs=-1, metavar="[NAME]...")
@click.option("--page", is_flag=True, help="Print the whole field guide as Markdown.")
def fields(words: tuple[str, ...], page: bool) -> None:
    """List every key of a job file, or tell all of NAME.

    NAME is a section, a key, a path such as load_test.levels, a kind of amount such as
    length, a value of a list such as perforations, or a word of the trade such as lid.
    """
    from generator.record import lookup  # keeps check quick
    from generator.record.guide import guide  # keeps check quick

    name = " ".join(words)
    if page or not words:
        click.echo(guide() if page else lookup.listing(), nl=not page)
    elif entries := lookup.told(name):
        click.echo(entries)
    else:
        offered = " or ".join(f'"{one}"' for one in lookup.near(name))
        hint = f"Did you mean {offered}?" if offered else "All: onlot fields."
        click.echo(f'"{name[:80]}" is no section, key, amount or value.', err=True)
        click.echo(f"  {hint}", err=True)
        raise SystemExit(PROBLEMS_FOUND)


@main.command(short_help="Begin the file of a new JOB.")
@click.argument("job")
@click.option("--all", "whole", is_flag=True, help="Write every section and key.")
@click.option("--like", metavar="OTHER", help="Take over the lot and system of OTHER.")
@click.pass_obj
def new(workspace: Workspace, job: str, whole: bool, like: str | None) -> None:
    """Begin inspections/JOB.yaml with what every visit needs."""
    from generator.record.begin_file import begin  # keeps check quick

    if whole and like:
        raise click.UsageError("Choose one of --all and --like.")
    name, other = job.removesuffix(".yaml"), like and like.removesuffix(".yaml")
    for line in or_stop(lambda: begin(workspace, name, whole=whole, like=other)):
        click.echo(line)


@main.command(short_help="List the code packs, or print one PACK in full.")
@click.argument("name", required=False, metavar="[PACK]")
@click.pass_obj
def codes(workspace: Workspace, name: str | None) -> None:
    """List the packs of local codes, or print one with every figure and its source."""
    from generator.codes import telling  # keeps check quick

    own = or_stop(lambda: own_packs(str(workspace.inspections / "codes")))
    if name is None:
        lines = list(telling.listed(own))
    else:
        shipped, firm = or_stop(lambda: packs_called(name, own))
        lines = list(telling.in_full(firm, own=True)) if firm else []
        lines += list(telling.in_full(shipped)) if shipped else []
    for line in lines:
        click.echo(line)


def _worked_out(opened: Opened) -> tuple[Problem, ...]:
    """Tell the problems that only show once a job is worked out."""
    record = opened.record
    if record is None:
        return ()
    try:
        pack = code_for(record)
        if problems := misfits(record):
            return tuple(problems)
        if record.inspection.datum and record.inspection.distances:
            from generator.results.compute import refusals  # keeps check quick

            if problems := refusals(record, pack):  # the tape against the plan
                return tuple(problems)
        if record.inspection.overrides:  # only a judged job knows its findings
            from generator.findings.judge import judge  # keeps check quick
            from generator.results.compute import compute  # keeps check quick

            judge(record, compute(record, pack), pack)
    except Refused as refused:
        return refused.problems
    return ()


def _before_leaving(opened: Opened) -> list[str]:
    if opened.draft is None or opened.draft.get("state") == FINAL:
        return []
    from generator.leaving import told  # keeps the check of a final file quick

    return told(opened.draft, opened.items, opened.sketch)


for command in (
    cli_build.build,
    cli_build.merge,
    cli_links.links,
    cli_links.renew,
    cli_links.withdraw,
    cli_links.until,
    cli_links.handover,
    cli_photos.intake,
    cli_firm.office,
    cli_firm.start,
    cli_seal.seal,
    cli_trail.history,
    cli_trail.retain,
    cli_verify.verify,
):
    main.add_command(command)
