"""Which jobs are older than the firm's years of keeping, and what removal would take.

It only tells. Nothing is removed or written, and no secret is made.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.holdings import (
    Place,
    links_file,
    made_files,
    own_files,
    secret_if_here,
)
from generator.keeping import Keeping, keeping
from generator.problems import Refused
from generator.record.firm_file import load_firm
from generator.record.link_book import OPEN, Link, link_book
from generator.record.load import LONGEST_NAME, Workspace


@dataclass(frozen=True)
class Older:
    """A job that is older than the firm's years of keeping.

    Parameters
    ----------
    keeping : Keeping
        How long it was to be kept, and whose it is.
    link : Link or None
        Its last link; None where its file of links has problems.
    state : str
        What that link does on the day, or the first problem of the file of links.
    own : tuple of Place
        What the firm keeps of it in git.
    made : tuple of Place
        What onlot made of it, which git does not hold.
    links_file : str
        Its file of links, which is counted in its folder; empty without one.
    """

    keeping: Keeping
    link: Link | None
    state: str
    own: tuple[Place, ...]
    made: tuple[Place, ...]
    links_file: str = ""

    @property
    def is_open(self) -> bool:
        """Whether the client could still read the report on the day."""
        return self.link is not None and self.state == OPEN


@dataclass(frozen=True)
class Retained:
    """What is told of all jobs of a firm on a day.

    Parameters
    ----------
    on : str
        The day (ISO 8601).
    years : int or None
        The firm's years of keeping; None where it names none and nothing is told.
        [year]
    older : tuple of Older
        In the order of the day on which the keeping ended.
    within : tuple of Keeping
        Those still to be kept, in the same order.
    untold : tuple of tuple of str
        Each job of which it cannot be told, with its first problem.
    has_secret : bool
        Whether the secret is here, by which published and sealed reports are found.
    """

    on: str
    years: int | None
    older: tuple[Older, ...] = ()
    within: tuple[Keeping, ...] = ()
    untold: tuple[tuple[str, str], ...] = ()
    has_secret: bool = False


def retained(workspace: Workspace, on: str) -> Retained:
    """Tell which jobs are older than the firm's years of keeping, and what they hold.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder, which stays as it is.
    on : str
        The day (ISO 8601). A job is older where its last day of keeping lies before it.

    Returns
    -------
    Retained
        Every job, each under one of the three heads. See ``keeping`` for what of a job
        is looked at.

    Raises
    ------
    generator.problems.Refused
        With every problem of the firm file.
    """
    years = load_firm(workspace).keep_years
    if years is None:
        return Retained(on, None)
    told: list[Keeping] = []
    untold: list[tuple[str, str]] = []
    for job in workspace.jobs():
        try:
            told.append(keeping(workspace, job, years))
        except Refused as refused:
            untold.append((_printable(job), _first(refused)))
    told.sort(key=lambda one: (one.until, one.job))
    secret = secret_if_here(workspace.root)
    return Retained(
        on=on,
        years=years,
        older=tuple(_older(workspace, k, on, secret) for k in told if k.until < on),
        within=tuple(k for k in told if k.until >= on),
        untold=tuple(untold),
        has_secret=secret is not None,
    )


def _first(refused: Refused) -> str:
    return str(refused.problems[0]).splitlines()[0]


def _printable(name: str) -> str:
    """Show a name without anything that a terminal would obey."""
    return "".join(sign if sign.isprintable() else "?" for sign in name[:LONGEST_NAME])


def _older(
    workspace: Workspace, keeping: Keeping, on: str, secret: bytes | None
) -> Older:
    job, last = keeping.job, None
    states: list[str] = []
    try:
        book = link_book(workspace, job)
        last, states = book.last, [link.state(on) for link in book.links]
        state = states[-1]
    except Refused as refused:
        state = _first(refused)
    return Older(
        keeping=keeping,
        link=last,
        state=state,
        own=own_files(workspace, job),
        made=made_files(workspace.root, job, states, secret),
        links_file=links_file(workspace, job),
    )
