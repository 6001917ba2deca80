"""The site of one job: drawn, composed, written as a page tree, and built."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from generator.beside import drawn_here
from generator.findings.answers import first_to_do
from generator.pages.compose import compile_ahead as compile_pages
from generator.pages.compose import compose
from generator.pages.context import Job
from generator.pages.origin import UNKNOWN, Origin
from generator.problems import Problem, Refused
from generator.provenance import made_of
from generator.record.firm_file import FIRM_FILE
from generator.record.load import Workspace
from generator.record.model import Record
from generator.shipped import shipped
from generator.website import evidence, links, render, tree
from generator.website.look import LOOKS, base_config
from generator.website.photo_cache import PhotoCache
from generator.website.photos import PhotoError
from generator.worked import Worked

if TYPE_CHECKING:
    from generator.pictures import Drawn

LOGO = "logo"  # its published name
LOGO_PX = 480  # our choice: sharp at 40 mm of paper


def build_site(
    workspace: Workspace,
    worked: Worked,
    folder: Path,
    name: str | None = None,
    origin: Origin = UNKNOWN,
    *,
    told: bool = True,
    keep: bool = True,
    draw: Callable[[], dict[str, Drawn]] | None = None,
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
    name : str, optional
        Folder name behind the private link; paper prints the link where it is given
        and the firm file names the address of the reports.
    origin : Origin
        Where the job file stands in the firm's history.
    told : bool
        Whether the pages tell how to check them by record.json, which a sealed report
        travels without.
    keep : bool
        Whether the photographs are kept as prepared, in ``photos`` of the folder, for
        the next build; not in a folder that does not stay.
    draw : callable, optional
        Gives every figure of the job; they are drawn here when left out.

    Returns
    -------
    pathlib.Path
        The folder of the built site.
    """
    job = worked.record.job
    cache = PhotoCache(folder if keep else None)
    prepared, stems = _photographs(workspace, worked.record, cache)
    logo = _logo(workspace, worked.record, cache)
    cache.used_by(job)
    drawn = draw() if draw else drawn_here(worked)
    about = Job(
        worked.record,
        worked.results,
        worked.findings,
        worked.answers,
        first_to_do(worked.findings),
        worked.pack,
        {name: picture for name, (picture, _) in drawn.items()},
        stems,
        links.address(worked.record.firm.reports_at, name),
        LOGO if logo else "",
        origin,
        evidence.BLANK if told else "",
    )
    config = tree.write_tree(
        folder / "trees" / job,
        site_name=worked.record.inspection.property.address,
        pages=compose(about),
        figures={name: image for name, (_, image) in drawn.items()},
        photos=prepared | logo,
        base_config=base_config(
            workspace.root, shipped("mkdocs.yml"), folder / LOOKS / job
        ),
    )
    return _proved(config, folder / "sites" / job, made_of(workspace, worked, origin))


@cache
def compile_ahead() -> None:
    """Compile all that writes pages, while somebody else draws; once in a process."""
    compile_pages()
    render.compile_ahead(tree.THEME)


def _proved(config: Path, site: Path, made: dict[str, object]) -> Path:
    """Build a page tree whose pages lead to the evidence, then write that."""
    evidence.begin(config.parent / tree.DOCS_NAME, made)
    render.render(config, site)
    evidence.prove(site, made)
    return site


def _logo(workspace: Workspace, record: Record, cache: PhotoCache) -> dict[str, bytes]:
    """Prepare the firm's picture like a photograph, to the size that paper shows."""
    if not record.firm.logo:
        return {}
    path = workspace.inspections / record.firm.logo
    file = workspace.shown(workspace.inspections / FIRM_FILE)
    if path.is_symlink():
        message = "This link leads out of inspections/."
        raise Refused([Problem(file, 0, "logo", message, "Put the file itself there.")])
    try:
        return {LOGO: cache.prepare(path, longest_px=LOGO_PX)}
    except PhotoError as error:
        raise Refused([Problem(file, 0, "logo", str(error))]) from None


def _photographs(
    workspace: Workspace, record: Record, cache: PhotoCache
) -> tuple[dict[str, bytes], dict[str, str]]:
    folder = workspace.photo_folder(record.job)
    prepared: dict[str, bytes] = {}
    stems: dict[str, str] = {}
    problems = []
    for number, photo in enumerate(record.inspection.photos, 1):
        stem = f"photo-{number:02}"
        stems[photo.file] = stem
        try:
            sizes = cache.two_sizes(folder / photo.file)
            prepared |= {stem: sizes.small, f"{stem}-large": sizes.large}
        except PhotoError as error:
            path = photo.path("file")
            file = workspace.shown(workspace.job_file(record.job))
            problems.append(Problem(file, record.line(path), path, str(error)))
    if problems:
        raise Refused(problems)
    return prepared, stems
