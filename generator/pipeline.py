"""Many jobs, each through every room, into one published folder."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TypeVar

from generator.findings.answers import first_to_do
from generator.pages.compose import compose
from generator.pages.context import Job
from generator.pictures import draw
from generator.problems import Problem, Refused
from generator.record.load import Workspace
from generator.record.model import Record
from generator.shipped import shipped
from generator.website import links, photos, publish, render, tree
from generator.worked import Worked, work_out

FIRST_LINK = 1
NEW_SECRET = (
    "A new link secret was made in .onlot/link-secret. Keep a copy in a safe place: "
    "without it every link changes."
)

Made = TypeVar("Made")


def build_site(
    workspace: Workspace, worked: Worked, folder: Path, secret: bytes | None = None
) -> Path:
    """Write the page tree of a job and build its site.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    worked : Worked
        The job, worked out.
    folder : pathlib.Path
        Where ``trees/JOB`` and ``sites/JOB`` go.
    secret : bytes, optional
        The firm's secret; paper prints the private link where it is given and the
        firm file names the address of the reports.

    Returns
    -------
    pathlib.Path
        The folder of the built site.
    """
    job = worked.record.job
    drawn = draw(worked)
    prepared, stems = _photographs(workspace, worked.record)
    pages = compose(
        Job(
            worked.record,
            worked.results,
            worked.findings,
            worked.answers,
            first_to_do(worked.findings),
            worked.pack,
            {name: picture for name, (picture, _) in drawn.items()},
            stems,
            _link(worked.record, secret),
        )
    )
    config = tree.write_tree(
        folder / "trees" / job,
        site_name=worked.record.inspection.property.address,
        pages=pages,
        figures={name: image for name, (_, image) in drawn.items()},
        photos=prepared,
        base_config=shipped("mkdocs.yml"),
    )
    site = folder / "sites" / job
    render.render(config, site)
    return site


def _link(record: Record, secret: bytes | None) -> str:
    base = record.firm.reports_at
    if not base or secret is None:
        return ""
    return links.address(base, links.folder_name(secret, record.job, FIRST_LINK))


def _photographs(
    workspace: Workspace, record: Record
) -> tuple[dict[str, bytes], dict[str, str]]:
    folder = workspace.photo_folder(record.job)
    prepared: dict[str, bytes] = {}
    stems: dict[str, str] = {}
    problems = []
    for number, photo in enumerate(record.inspection.photos, 1):
        stem = f"photo-{number:02}"
        stems[photo.file] = stem
        try:
            sizes = photos.two_sizes(folder / photo.file)
            prepared |= {stem: sizes.small, f"{stem}-large": sizes.large}
        except photos.PhotoError as error:
            path = photo.path("file")
            file = workspace.shown(workspace.job_file(record.job))
            problems.append(Problem(file, record.line(path), path, str(error)))
    if problems:
        raise Refused(problems)
    return prepared, stems


def build(
    workspace: Workspace,
    jobs: Sequence[str],
    public: Path,
    note: Callable[[str], None],
) -> dict[str, Path]:
    """Build jobs and publish them, all or none.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    jobs : sequence of str
        Names of the jobs.
    public : pathlib.Path
        The published folder.
    note : callable
        Told what the firm must know beside the pages, such as a secret just made.

    Returns
    -------
    dict of str to pathlib.Path
        The first page of every job.

    Raises
    ------
    Refused
        With every problem of every job; nothing published has changed then.
    """
    _may_publish(workspace, public)
    with publish.alone(workspace.root / "build"):
        worked = _all(jobs, lambda job: work_out(workspace, job))
        secret, made = links.read_secret(workspace.root)
        if made:
            note(NEW_SECRET)
        build_folder = workspace.root / "build"
        sites = _all(
            worked, lambda job: build_site(workspace, worked[job], build_folder, secret)
        )
        names = {job: links.folder_name(secret, job, FIRST_LINK) for job in sites}
        publish.publish({names[job]: site for job, site in sites.items()}, public)
    return {job: public / names[job] / "index.html" for job in sites}


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
