"""The commands of private links: who has which, a new one, a last day, no more."""

from __future__ import annotations

import os
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import click

from generator.cli_common import chosen, or_stop
from generator.quantity import Day
from generator.record.load import Workspace

NEVER = "never"
EPOCH = "SOURCE_DATE_EPOCH"  # seconds since 1970: the day of a build made again
NEXT = "Build and publish to put it into effect; commit {file}."


class DayType(click.ParamType[Day]):
    """A day in one of the ways that a job file takes."""

    name = "day"

    def convert(self, value: Any, param: Any, ctx: Any) -> Day:
        """Read the day, or say how it is written."""
        from generator.record.calendar_day import day
        from generator.record.spelling import AmountError

        if isinstance(value, Day):
            return value
        try:
            return day(value)
        except AmountError as error:
            self.fail(str(error), param, ctx)


def today() -> Day:
    """Give the day of the build: that of ``SOURCE_DATE_EPOCH`` where it is set."""
    seconds = os.environ.get(EPOCH, "")
    if seconds.isascii() and seconds.isdecimal():
        iso = datetime.fromtimestamp(int(seconds), UTC).date().isoformat()
    else:
        iso = date.today().isoformat()
    return Day(iso, iso)


def on_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--on``, the day on which something is done."""
    return click.option(
        "--on", type=DayType(), default=today, help="The day; today when left out."
    )(command)


@click.command(short_help="Tell who has which link.")
@click.argument("jobs", nargs=-1, metavar="[JOB]...")
@on_option
@click.pass_obj
def links(workspace: Workspace, jobs: tuple[str, ...], on: Day) -> None:
    """Print every link of every JOB: what it opens, for whom, and until when."""
    from generator.handing import link_lines  # keeps check quick

    names = chosen(workspace, jobs)
    for line in or_stop(lambda: list(link_lines(workspace, names, on.iso))):
        click.echo(line)


@click.command(short_help="Give JOB a new link; the old one opens nothing.")
@click.argument("job")
@click.option("--because", help="Reason, for the firm alone.")
@click.option("--until", type=DayType(), help="Last day of the new link.")
@on_option
@click.pass_obj
def renew(
    workspace: Workspace, job: str, because: str | None, until: Day | None, on: Day
) -> None:
    """Give JOB a new link, and turn the old one into a page that says so."""
    from generator.record import link_book  # keeps check quick

    def changed(book: link_book.LinkBook) -> link_book.LinkBook:
        return link_book.renewed(book, on, because, until)

    _change(workspace, job, changed, "has a new link")


@click.command(short_help="Take the report of JOB away from whoever has its link.")
@click.argument("job")
@click.option("--because", help="Reason, for the firm alone.")
@on_option
@click.pass_obj
def withdraw(workspace: Workspace, job: str, because: str | None, on: Day) -> None:
    """Take JOB away; its link then leads to a page that says whom to ask."""
    from generator.record import link_book  # keeps check quick

    def changed(book: link_book.LinkBook) -> link_book.LinkBook:
        return link_book.withdrawn(book, on, because)

    _change(workspace, job, changed, "is withdrawn")


@click.command(short_help="Give the link of JOB a last day, or take it off.")
@click.argument("job")
@click.argument("last", metavar="DAY")
@click.pass_obj
def until(workspace: Workspace, job: str, last: str) -> None:
    """Let the link of JOB open the report up to DAY and not after; DAY may be never."""
    from generator.record import link_book  # keeps check quick

    day = None if last == NEVER else DayType().convert(last, None, None)
    said = "opens its report without a last day" if day is None else f"ends {day.iso}"

    def changed(book: link_book.LinkBook) -> link_book.LinkBook:
        return link_book.lasting(book, day)

    _change(workspace, job, changed, said)


@click.command(short_help="Write the words that go with the link of JOB.")
@click.argument("job")
@on_option
@click.pass_obj
def handover(workspace: Workspace, job: str, on: Day) -> None:
    """Print a message for the client of JOB, with the private link in it."""
    from generator.handing import message  # keeps check quick

    [name] = chosen(workspace, (job,))
    click.echo(or_stop(lambda: message(workspace, name, on.iso)))


def _change(
    workspace: Workspace, job: str, changed: Callable[[Any], Any], said: str
) -> None:
    from generator.record import link_book  # keeps check quick

    [name] = chosen(workspace, (job,))

    def write() -> Path:
        book = link_book.known(workspace, name)
        return link_book.keep(workspace, name, changed(book))

    file = or_stop(write)
    click.echo(f"{name}: {said}.")
    click.echo(NEXT.format(file=workspace.shown(file)))
