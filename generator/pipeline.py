"""Many jobs, each through every room, into one published folder."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from generator.doors import Doors, doors
from generator.problems import Problem, Refused
from generator.progress import Watch, silent
from generator.record.firm_file import load_firm
from generator.record.load import Workspace, load
from generator.shipped import shipped
from generator.spoilt import spoilt_notes
from generator.stale import DAMAGE, Stale
from generator.stamp_file import keep_stamp
from generator.stamps import drop_photographs, stamp_of
from generator.standing import Standing, standing
from generator.trail.past import Past, past_of
from generator.website import links, publish
from generator.website.gone import gone_page
from generator.website.look import LOOKS, base_config
from generator.workers import Bench, Maker, Outcome, Task, built

HOME = "index.html"
NEW_SECRET = (
    "A new link secret was made in .onlot/link-secret. Keep a copy in a safe place: "
    "without it every link changes."
)
DRAFT = (
    "{job}: clients see report {number}; the file is a draft of the next, which stays "
    "in the office."
)
EVERYTHING = "everything is built again"
NO_HISTORY = (
    "There is no git history here, so nothing tells a report that was altered after it "
    "was given."
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
    """

    jobs: Sequence[str]
    public: Path
    today: str
    remove_strays: bool = False
    everything: bool = False
    explain: bool = False
    make: Maker = built
    watch: Watch = silent


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
    _may_publish(workspace, order.public)
    folder = workspace.root / "build"
    with publish.alone(folder):
        secret, made = links.read_secret(workspace.root)
        if made:
            note(NEW_SECRET)
        publish.recover(order.public)  # before anything is compared with it
        load_firm(workspace)
        base_config(workspace.root, shipped("mkdocs.yml"), folder / LOOKS / "firm")
        found = doors(workspace, secret, order.today)
        _all((job for job in order.jobs if job not in found.books), _refused(workspace))
        names = _shown(order, found, note)
        past = past_of(workspace)
        past.read_ahead(names)
        stands = {job: standing(workspace, past, job) for job in names}
        stale = Stale(workspace, past, stands, order.public, found.owned())
        sources = {job: stale.sources(job, name) for job, name in names.items()}
        _tell(stands, past, note)
        changed = list(_changed(order, stale, sources, note))
        bench = Bench(workspace, past, folder)
        tasks = [Task(job, names[job], stands[job]) for job in changed]
        with order.watch(len(tasks)) as done:
            outcomes = order.make(bench, tasks, done)
        for text in spoilt_notes(past, folder):
            note(text)
        sites = {job: one for job, one in outcomes.items() if isinstance(one, Path)}
        strays = sorted(publish.clients(order.public) - found.owned())
        edition = publish.Edition(
            {names[job]: site for job, site in sites.items()},
            _gone(workspace, found),
            strays if order.remove_strays else (),
            stale.leads(
                {job: names[job] for job in names.keys() - sites.keys()}, changed
            ),
        )
        publish.publish(edition, order.public)
        words = REMOVED if order.remove_strays else STRAY
        for name in strays:
            note(words.format(folder=order.public.name, name=name))
        for job in sites:
            keep_stamp(folder, stamp_of(job, sources[job], order.public / names[job]))
        drop_photographs(workspace, order.jobs)
    return _told(order, names, outcomes)


def _told(
    order: Order, names: Mapping[str, str], outcomes: Mapping[str, Outcome]
) -> Published:
    refused = {job: one for job, one in outcomes.items() if isinstance(one, Refused)}
    pages = {job: order.public / names[job] / HOME for job in names}
    return Published(
        {job: page for job, page in pages.items() if page.is_file()},
        [job for job in outcomes if job not in refused],
        tuple(problem for one in refused.values() for problem in one.problems),
        list(refused),
    )


def _tell(
    stands: Mapping[str, Standing], past: Past, note: Callable[[str], None]
) -> None:
    """Tell of drafts that stay in the office, and of a history that is not there."""
    for job, one in stands.items():
        if one.draft:
            note(DRAFT.format(job=job, number=one.number))
    if past.repository is None and any(one.number for one in stands.values()):
        note(NO_HISTORY)


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


def _changed(
    order: Order,
    stale: Stale,
    sources: Mapping[str, Mapping[str, str]],
    note: Callable[[str], None],
) -> Iterator[str]:
    """List the jobs to build; the published site of the others still stands."""
    same = 0
    for job, made in sources.items():
        reasons = stale.reasons(job, made)
        if order.everything:
            reasons = reasons or [EVERYTHING]
        if order.explain or DAMAGE.intersection(reasons):
            note(f"{job}: {'; '.join(reasons) or 'nothing changed, so not built'}.")
        if reasons:
            yield job
        else:
            same += 1
    if same:
        note(f"{same} of {len(sources)} jobs had not changed.")


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


def _may_publish(workspace: Workspace, public: Path) -> None:
    """Refuse a folder of our own, and a lost secret that would change every link."""
    place = public.resolve()
    for ours in (workspace.inspections, workspace.root / "build"):
        if place.is_relative_to(ours.resolve()):
            message = f"Sites cannot be published inside {ours.name}/."
            hint = "Name another folder with --out."
            raise Refused([Problem(str(public), 0, "", message, hint)])
    if publish.clients(public) and not links.has_secret(workspace.root):
        message = "The link secret is gone, and a new one would change every link."
        hint = "Put .onlot/link-secret back, or empty this folder to begin anew."
        raise Refused([Problem(str(public), 0, "", message, hint)])
