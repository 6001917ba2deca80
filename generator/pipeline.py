"""Many jobs, each through every room, into one published folder."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from generator.doors import Doors, doors
from generator.problems import Problem, Refused
from generator.record.firm_file import load_firm
from generator.record.load import Workspace
from generator.site import build_site
from generator.website import links, publish
from generator.website.gone import gone_page
from generator.worked import work_out

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
    """

    jobs: Sequence[str]
    public: Path
    today: str
    remove_strays: bool = False


def build(
    workspace: Workspace, order: Order, note: Callable[[str], None]
) -> dict[str, Path]:
    """Build jobs and publish them, all or none.

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
    dict of str to pathlib.Path
        The first page of every job that was built.

    Raises
    ------
    Refused
        With every problem of every job; nothing published has changed then.
    """
    _may_publish(workspace, order.public)
    folder = workspace.root / "build"
    with publish.alone(folder):
        worked = _all(order.jobs, lambda job: work_out(workspace, job))
        secret, made = links.read_secret(workspace.root)
        if made:
            note(NEW_SECRET)
        found = doors(workspace, secret, order.today)
        for job in worked.keys() - found.reports.keys():
            state = found.books[job].last.state(order.today)
            note(NOBODY.format(job=job, state=state))
        names = {job: found.reports[job] for job in worked if job in found.reports}
        sites = _all(
            names, lambda job: build_site(workspace, worked[job], folder, names[job])
        )
        strays = _strays(found, order, note)
        edition = publish.Edition(
            {names[job]: site for job, site in sites.items()},
            _gone(workspace, found),
            strays if order.remove_strays else (),
        )
        publish.publish(edition, order.public)
    return {job: order.public / names[job] / "index.html" for job in sites}


def _strays(found: Doors, order: Order, note: Callable[[str], None]) -> list[str]:
    """Tell of client folders that no link of any job leads to."""
    strays = sorted(publish.clients(order.public) - found.owned())
    words = REMOVED if order.remove_strays else STRAY
    for name in strays:
        note(words.format(folder=order.public.name, name=name))
    return strays


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
