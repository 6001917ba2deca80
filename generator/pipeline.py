"""Many jobs, each through every room, into one published folder."""

from __future__ import annotations

import os
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from generator.beside import Hand
from generator.doors import Doors
from generator.problems import Problem, Refused
from generator.progress import Watch, silent
from generator.record.firm_file import load_firm
from generator.record.load import Workspace, load
from generator.spoilt import spoilt_notes
from generator.stamp_file import keep_stamp
from generator.stamps import drop_photographs, stamp_of
from generator.survey import Survey, may_publish, opened, surveyed
from generator.website import links, publish
from generator.website.gone import gone_page
from generator.workers import Bench, Maker, Outcome, Task, built

HOME = "index.html"
NEW_SECRET = (
    "A new link secret was made in .onlot/link-secret. Keep a copy in a safe place: "
    "without it every link changes."
)
NOBODY = "{job}: nobody can read it, since its last link is {state}; not built."
STRAY = "{folder}/{name} belongs to no job. Take it away with --remove-strays."
REMOVED = "{folder}/{name} belonged to no job and was taken away."

Made = TypeVar("Made")


@dataclass(frozen=True)
class Order:
    """What a build is to do.

    Parameters
    ----------
    jobs : Sequence[str]
        Names of the jobs to build.
    public : pathlib.Path
        The published folder.
    today : str
        The day (ISO 8601): a link past its last day opens no report. The day stands
        on no page.
    remove_strays : bool
        True to take away client folders that no job owns.
    everything : bool
        True to build jobs again that did not change.
    explain : bool
        True to tell of each job why it is built, or that it is not.
    make : callable
        Builds the jobs that changed: a ``generator.workers.Maker``.
    watch : callable
        Shows how the build goes on.
    hand : Hand
        A second process, where there is one.
    """

    jobs: Sequence[str]
    public: Path
    today: str
    remove_strays: bool = False
    everything: bool = False
    explain: bool = False
    make: Maker = built
    watch: Watch = silent
    hand: Hand = field(default_factory=Hand)


@dataclass(frozen=True)
class Published:
    """What a build did.

    Parameters
    ----------
    pages : Mapping[str, Path]
        The first page of every job that somebody may read and that is published.
    changed : Collection[str]
        The jobs that were built for it.
    problems : tuple of Problem
        What is wrong with the jobs that were left as they were.
    left : Sequence[str]
        Those jobs.
    """

    pages: Mapping[str, Path]
    changed: Collection[str] = ()
    problems: tuple[Problem, ...] = ()
    left: Sequence[str] = ()


def build(workspace: Workspace, order: Order, note: Callable[[str], None]) -> Published:
    """Build jobs and publish them; a job that fails leaves the others alone.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    order : Order
        The jobs, where they go, and the day.
    note : callable
        Told what the firm must know beside the pages, such as a secret just made.

    Returns
    -------
    Published
        The first page of every job, and what is wrong with those that failed: what
        was published of these before stays as it was.

    Raises
    ------
    Refused
        With what concerns the firm as a whole, such as its file, its links, its secret
        or a job that there is none of; nothing published has changed then.
    """
    may_publish(workspace, order.public)
    with publish.alone(workspace.root / "build"):
        secret, made = links.read_secret(workspace.root)
        if made:
            note(NEW_SECRET)
        survey = looked_over(workspace, order, secret, note)
        changed = survey.to_build(
            note,
            everything=order.everything,
            explain=order.explain,
            hand=order.hand,
        )
        found = put_out(workspace, order, survey, changed, note)
        drop_photographs(workspace, order.jobs)
    return found


def looked_over(
    workspace: Workspace, order: Order, secret: bytes, note: Callable[[str], None]
) -> Survey:
    """Look at the jobs of an order, before anything is built.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder, in which nobody else builds.
    order : Order
        The jobs, where they go, and the day.
    secret : bytes
        The firm's secret.
    note : callable
        Told what the firm must know.

    Returns
    -------
    Survey
        The jobs that somebody may read.

    Raises
    ------
    Refused
        With what concerns the firm as a whole, or a job that there is none of.
    """
    found = opened(workspace, secret, order.public, order.today)
    _all((job for job in order.jobs if job not in found.books), _refused(workspace))
    names = _shown(order, found, note)
    return surveyed(workspace, found, names, order.public, note, order.hand)


def made(
    workspace: Workspace, order: Order, survey: Survey, jobs: Iterable[str]
) -> dict[str, Outcome]:
    """Have jobs made by whoever makes them; give each site, or what is wrong."""
    bench = Bench(workspace, survey.past, workspace.root / "build")
    tasks = [Task(job, survey.names[job], survey.stands[job]) for job in jobs]
    with order.watch(len(tasks)) as done:
        return order.make(bench, tasks, done)


def put_out(
    workspace: Workspace,
    order: Order,
    survey: Survey,
    jobs: Iterable[str],
    note: Callable[[str], None],
) -> Published:
    """Have jobs made and publish them, with the pages of the links that ended.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder, in which nobody else builds.
    order : Order
        Who makes them, and where they go.
    survey : Survey
        What was found before.
    jobs : iterable of str
        Those to make; the others stay as they are published.
    note : callable
        Told of client folders that no job owns.

    Returns
    -------
    Published
        The first page of every job, and what is wrong with those that failed.
    """
    names, changed, folder = survey.names, list(jobs), workspace.root / "build"
    outcomes = made(workspace, order, survey, changed)
    for text in spoilt_notes(survey.past, folder):
        note(text)
    sites = {job: one for job, one in outcomes.items() if isinstance(one, Path)}
    strays = sorted(publish.clients(order.public) - survey.found.owned())
    edition = publish.Edition(
        {names[job]: site for job, site in sites.items()},
        _gone(workspace, survey.found),
        strays if order.remove_strays else (),
        survey.stale.leads(
            {job: names[job] for job in names if job not in sites}, changed
        ),
    )
    publish.publish(edition, order.public)
    words = REMOVED if order.remove_strays else STRAY
    for name in strays:
        note(words.format(folder=order.public.name, name=name))
    for job in sites:
        site = order.public / names[job]
        keep_stamp(folder, stamp_of(job, survey.sources[job], site))
    return _told(order, names, outcomes)


def _told(
    order: Order, names: Mapping[str, str], outcomes: Mapping[str, Outcome]
) -> Published:
    refused = {job: one for job, one in outcomes.items() if isinstance(one, Refused)}
    pages = {job: f"{order.public}/{name}/{HOME}" for job, name in names.items()}
    return Published(
        {job: Path(page) for job, page in pages.items() if os.path.isfile(page)},
        [job for job in outcomes if job not in refused],
        tuple(problem for one in refused.values() for problem in one.problems),
        list(refused),
    )


def _shown(order: Order, found: Doors, note: Callable[[str], None]) -> dict[str, str]:
    """Give the folder name of every job that somebody may read."""
    for job in order.jobs:
        if job in found.books and job not in found.reports:
            state = found.books[job].last.state(order.today)
            note(NOBODY.format(job=job, state=state))
    return {job: found.reports[job] for job in order.jobs if job in found.reports}


def _refused(workspace: Workspace) -> Callable[[str], None]:
    """Tell what is wrong with a name that is no job of the firm."""

    def refuse(job: str) -> None:
        load(workspace, job)
        message = "There is no job of exactly this name."
        hint = "Write it as its file is called, capitals included."
        raise Refused([Problem(job, 0, "", message, hint)])

    return refuse


def _gone(workspace: Workspace, found: Doors) -> Mapping[str, str]:
    """Write the pages of the links that open no report any longer."""
    if not found.gone:
        return {}
    firm = load_firm(workspace)
    return {
        name: gone_page(state, firm.name, firm.phone)
        for name, state in found.gone.items()
    }


def _all(jobs: Iterable[str], work: Callable[[str], Made]) -> dict[str, Made]:
    """Do one thing for every job, or refuse with the problems of all of them."""
    problems: list[Problem] = []
    done: dict[str, Made] = {}
    for job in jobs:
        try:
            done[job] = work(job)
        except Refused as refused:
            problems.extend(refused.problems)
    if problems:
        raise Refused(problems)
    return done
