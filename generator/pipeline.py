"""Many jobs, each through every room, into one published folder."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

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


def build_site(workspace: Workspace, worked: Worked, folder: Path) -> Path:
    """Write the page tree of a job and build its site.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    worked : Worked
        The job, worked out.
    folder : pathlib.Path
        Where ``trees/JOB`` and ``sites/JOB`` go.

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


@dataclass(frozen=True)
class Published:
    """What a build published: the page of every job, and whether a secret was made."""

    pages: dict[str, Path]
    new_secret: bool


def build(workspace: Workspace, jobs: Sequence[str], public: Path) -> Published:
    """Build jobs and publish them, all or none.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    jobs : sequence of str
        Names of the jobs.
    public : pathlib.Path
        The published folder.

    Returns
    -------
    Published
        The first page of every job.

    Raises
    ------
    Refused
        With every problem of every job; nothing published has changed then.
    """
    _may_publish(workspace, public)
    with publish.alone(workspace.root / "build"):
        return _build(workspace, jobs, public)


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


def _build(workspace: Workspace, jobs: Sequence[str], public: Path) -> Published:
    problems: list[Problem] = []
    worked: list[Worked] = []
    for job in jobs:
        try:
            worked.append(work_out(workspace, job))
        except Refused as refused:
            problems.extend(refused.problems)
    sites: dict[str, Path] = {}
    if not problems:
        for one in worked:
            try:
                sites[one.record.job] = build_site(
                    workspace, one, workspace.root / "build"
                )
            except Refused as refused:
                problems.extend(refused.problems)
    if problems:
        raise Refused(problems)
    secret, made = links.read_secret(workspace.root)
    names = {job: links.folder_name(secret, job, FIRST_LINK) for job in sites}
    publish.publish({names[job]: site for job, site in sites.items()}, public)
    return Published({job: public / names[job] / "index.html" for job in sites}, made)
