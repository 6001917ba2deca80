"""What a build finds before it builds: links, history, what each site is made from."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from generator.beside import Hand, load_drawing
from generator.doors import Doors, doors
from generator.problems import Problem, Refused
from generator.record.firm_file import load_firm
from generator.record.load import Workspace
from generator.shipped import shipped
from generator.stale import ALTERED, DAMAGE, Stale
from generator.standing import Standing, standing
from generator.trail.past import Past, past_of
from generator.website import links, publish
from generator.website.as_published import all_looks
from generator.website.look import LOOKS, base_config
from generator.workers import FEWEST, load_writing

DRAFT = (
    "{job}: clients see report {number}; the file is a draft of the next, which stays "
    "in the office."
)
NO_HISTORY = (
    "There is no git history here, so nothing tells a report that was altered after it "
    "was given."
)
MANY = 200  # sites worth a look by a second process; our choice
REFUSED = [ALTERED]
EVERYTHING = "everything is built again"
SAME = "nothing changed, so not built"
ALTERATIONS = "what was altered after it was given"


@dataclass(frozen=True)
class Survey:
    """The jobs that somebody may read, as a build finds them.

    Parameters
    ----------
    found : Doors
        What every link of the firm opens.
    names : Mapping[str, str]
        Folder name behind the link of each job that is looked at.
    past : Past
        The firm's history.
    stands : Mapping[str, Standing]
        What clients see of each of them.
    stale : Stale
        What was published of them.
    sources : Mapping[str, Mapping[str, str]]
        Digests of what the site of each is made from.
    """

    found: Doors
    names: Mapping[str, str]
    past: Past
    stands: Mapping[str, Standing]
    stale: Stale
    sources: Mapping[str, Mapping[str, str]]

    def to_build(
        self,
        note: Callable[[str], None],
        *,
        everything: bool,
        explain: bool,
        hand: Hand | None = None,
    ) -> list[str]:
        """List the jobs to build; the published site of the others still stands.

        Where few jobs are known to have changed before the published sites are looked
        at, all that builds them is loaded meanwhile.
        """
        found = []
        known = {job: self.stale.reasons(job, one) for job, one in self.sources.items()}
        sure = [one for one in known.values() if (one or everything) and one != REFUSED]
        if hand and 0 < len(sure) < FEWEST:
            hand.begin()
            if hand.begun:
                hand.ask(load_drawing)
                load_writing()  # the published sites may not be looked at yet
        for job, before in known.items():
            reasons = before or self.stale.damage(job)
            if everything:
                reasons = reasons or [EVERYTHING]
            if explain or DAMAGE.intersection(reasons):
                note(f"{job}: {'; '.join(reasons) or SAME}.")
            if reasons:
                found.append(job)
        if same := len(self.sources) - len(found):
            note(f"{same} of {len(self.sources)} jobs had not changed.")
        return found

    def inputs(self, job: str) -> dict[str, str]:
        """Digest what a job's outcome follows from: alterations refuse it."""
        told = "\n".join(str(one) for one in self.stands[job].problems)
        altered = hashlib.sha256(told.encode("utf-8", "surrogateescape")).hexdigest()
        return {**self.sources[job], **({ALTERATIONS: altered} if told else {})}


def opened(workspace: Workspace, secret: bytes, public: Path, today: str) -> Doors:
    """Read what concerns the firm as a whole, after what a killed build left is done.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    secret : bytes
        The firm's secret.
    public : pathlib.Path
        The published folder.
    today : str
        The day of the build (ISO 8601).

    Returns
    -------
    Doors
        What every link opens.

    Raises
    ------
    Refused
        With what is wrong with the firm's file, its look or its links.
    """
    publish.recover(public)  # before anything is compared with it
    load_firm(workspace)
    look = workspace.root / "build" / LOOKS / "firm"
    base_config(workspace.root, shipped("mkdocs.yml"), look)
    return doors(workspace, secret, today)


def surveyed(
    workspace: Workspace,
    found: Doors,
    names: Mapping[str, str],
    public: Path,
    note: Callable[[str], None],
    hand: Hand,
) -> Survey:
    """Look at what clients see of jobs, and at what their sites are made from.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    found : Doors
        What every link opens.
    names : Mapping[str, str]
        Folder name behind the link of each job to look at.
    public : pathlib.Path
        The published folder.
    note : callable
        Told of drafts that stay in the office, and of a history that is not there.
    hand : Hand
        Who looks at the published sites meanwhile, where they are many.

    Returns
    -------
    Survey
        What was found; nothing is built yet.
    """
    if len(names) >= MANY:
        hand.begin()
    sites = [f"{public}/{name}" for name in names.values()]
    seen = cache(hand.ask(all_looks, sites) if hand.begun else dict)
    past = past_of(workspace)
    past.read_ahead(names)
    stands = {job: standing(workspace, past, job) for job in names}
    stale = Stale(workspace, past, stands, public, found.owned(), seen)
    sources = {job: stale.sources(job, name) for job, name in names.items()}
    for job, one in stands.items():
        if one.draft:
            note(DRAFT.format(job=job, number=one.number))
    if past.repository is None and any(one.number for one in stands.values()):
        note(NO_HISTORY)
    return Survey(found, names, past, stands, stale, sources)


def may_publish(workspace: Workspace, public: Path) -> None:
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
