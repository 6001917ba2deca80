"""The share of a build as it is asked for, and what is told of it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from generator.cli_common import near, or_stop, tell_left
from generator.problems import counted
from generator.record.load import Workspace
from generator.shards.share import Share, share_of

if TYPE_CHECKING:
    from generator.pipeline import Order

NO_SHARE = '"{typed}" is no share; write I/N, such as 2/5, with I from 1 to N.'
ALL_ITS_JOBS = "--shard builds its share of all jobs: name no job with it."
PUBLISHES_NOTHING = "--shard publishes nothing: give --remove-strays to onlot merge."
LEFT = "{problems} in {jobs}; the shard tells of {them} and holds no site of {them}."


class ShareType(click.ParamType[Share]):
    """A share of a build, written I/N."""

    name = "I/N"

    def convert(self, value: Any, param: Any, ctx: Any) -> Share:
        """Read the share, or say how it is written."""
        if isinstance(value, Share):
            return value
        found = share_of(value)
        if found is None:
            self.fail(NO_SHARE.format(typed=value[:20]), param, ctx)
        return found


def shard_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--shard``, the share of a build that is made and not published."""
    return click.option(
        "--shard",
        "share",
        type=ShareType(),
        help="Build one share of all jobs into a folder; publish nothing.",
    )(command)


def may_share(jobs: tuple[str, ...], *, remove_strays: bool) -> None:
    """Refuse what a share of a build cannot be asked for together with."""
    if jobs:
        raise click.UsageError(ALL_ITS_JOBS)
    if remove_strays:
        raise click.UsageError(PUBLISHES_NOTHING)


def tell_shard(
    workspace: Workspace,
    order: Order,
    share: Share,
    out: Path | None,
    note: Callable[[str], None],
) -> None:
    """Make a shard; tell where it lies, and end with exit code 1 at problems."""
    from generator.shards.making import PLACE, make_shard  # keeps check quick

    folder = out or workspace.root / PLACE / share.folder
    made = or_stop(lambda: make_shard(workspace, order, share, folder, note))
    sites = counted(len(made.manifest.parts) - len(made.problems()), "site")
    jobs = counted(len(made.manifest.jobs), "job")
    note(f"{near(made.folder)}: share {share}, {sites} of {jobs}.")
    problems = made.problems()
    told = [one for found in problems.values() for one in found]
    tell_left(told, len(problems), LEFT)
