"""The commands that build and publish: parse, call, print, exit code."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.cli_common import chosen, near, or_stop, tell_left
from generator.cli_links import on_option
from generator.cli_shards import may_share, shard_option, tell_shard
from generator.quantity import Day
from generator.record.load import Workspace

if TYPE_CHECKING:
    from generator.beside import Hand
    from generator.pipeline import Published
    from generator.shards.share import Share
    from generator.workers import Maker

MOST_PAGES = 20  # that are named though nothing in them changed; our choice
EITHER = "--jobs counts processes of this machine; a cluster has its own workers."
LEFT = "{problems} in {jobs}; what was published of {them} before stays as it was."


@click.command(short_help="Build the private sites that changed, and publish them.")
@click.argument("jobs", nargs=-1, metavar="[JOB]...")
@click.option(
    "--out",
    type=click.Path(file_okay=False, path_type=Path),
    help="The folder to publish into; public/ when left out.",
)
@click.option(
    "--jobs",
    "processes",
    type=click.IntRange(1),
    help="Processes that build side by side; one for each core when left out.",
)
@click.option(
    "--cluster",
    metavar="ADDRESS",
    help="Build on the Dask cluster whose scheduler is at tcp:// or tls://HOST:PORT.",
)
@click.option(
    "--remove-strays", is_flag=True, help="Take away client folders of no job."
)
@click.option("--all", "everything", is_flag=True, help="Build unchanged jobs too.")
@click.option("--explain", is_flag=True, help="Tell why each job is built or not.")
@click.option("-q", "--quiet", is_flag=True, help="Print problems alone.")
@shard_option
@on_option
@click.pass_obj
def build(
    workspace: Workspace,
    /,
    jobs: tuple[str, ...],
    out: Path | None,
    processes: int | None,
    share: Share | None,
    cluster: str | None,
    quiet: bool,
    on: Day,
    **how: bool,
) -> None:
    """Build the private sites of all jobs, or of those named, and publish them.

    A job with problems leaves the others alone: what was published of it stays as it
    was, its problems are told, and the exit code is 1.

    A cluster needs the extra onlot[cluster], and the same onlot on every worker.
    Whoever reaches its scheduler can read the job files and run programs on its
    machines, this one included: use it within a network of the firm's own, or by TLS.
    """
    from generator import pipeline  # keeps check quick
    from generator.beside import Hand  # keeps check quick
    from generator.progress import watch  # keeps check quick
    from generator.workers import cores, unsearched  # keeps check quick

    if share:
        may_share(jobs, remove_strays=how["remove_strays"])
    if cluster is not None and processes is not None:
        raise click.UsageError(EITHER)
    public = workspace.root / "public"
    count = 1 if cluster else processes or cores()
    with unsearched(), Hand(count) as hand:
        order = pipeline.Order(
            chosen(workspace, jobs),
            public if share else out or public,
            on.iso,
            make=_maker(count, cluster, hand),
            watch=watch(quiet=quiet),
            hand=hand,
            **how,
        )
        note = _nothing if quiet else partial(click.echo, err=True)
        if share:
            tell_shard(workspace, order, share, out, note)
            return
        found = or_stop(lambda: pipeline.build(workspace, order, note))
    if not quiet:
        _tell_pages(found, named=bool(jobs))
    tell_left(found.problems, len(found.left), LEFT)


@click.command(short_help="Publish what several machines have built, all or nothing.")
@click.argument(
    "shards",
    nargs=-1,
    required=True,
    metavar="SHARD...",
    type=click.Path(path_type=Path),
)
@click.option(
    "--out",
    type=click.Path(file_okay=False, path_type=Path),
    help="The folder to publish into; public/ when left out.",
)
@click.option(
    "--remove-strays", is_flag=True, help="Take away client folders of no job."
)
@click.option("-q", "--quiet", is_flag=True, help="Print problems alone.")
@on_option
@click.pass_obj
def merge(
    workspace: Workspace,
    shards: tuple[Path, ...],
    out: Path | None,
    remove_strays: bool,
    quiet: bool,
    on: Day,
) -> None:
    """Publish the shards of one build: SHARD... are the folders of all of them.

    Each machine made one by ``onlot build --shard I/N``. Everything in them is checked
    first, against what lies here as well; where anything does not fit, nothing that is
    published changes.
    """
    from generator.pipeline import Order  # keeps check quick
    from generator.shards import merging  # keeps check quick

    public = out or workspace.root / "public"
    order = Order(chosen(workspace, ()), public, on.iso, remove_strays)
    note = _nothing if quiet else partial(click.echo, err=True)
    found = or_stop(lambda: merging.merge(workspace, order, shards, note))
    if not quiet:
        _tell_pages(found, named=False)
    tell_left(found.problems, len(found.left), LEFT)


def _maker(count: int, cluster: str | None, hand: Hand) -> Maker:
    """Choose who builds the jobs that changed."""
    from generator.workers import built  # keeps check quick

    if cluster is None:
        return partial(built, processes=count, hand=hand)
    from generator.cluster import maker  # keeps a build without one quick

    return partial(maker.built, address=cluster)


def _nothing(text: str) -> None:
    """Take a note and say nothing."""


def _tell_pages(found: Published, *, named: bool) -> None:
    """Name the pages that were built; of few jobs, or of named ones, all of them."""
    few = len(found.pages) <= MOST_PAGES
    for job, page in found.pages.items():
        if job not in found.left and (named or few or job in found.changed):
            click.echo(f"{job}: {near(page)}")
