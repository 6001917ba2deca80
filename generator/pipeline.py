"""One job through every room, and many jobs into one published folder."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain
from pathlib import Path

from matplotlib.figure import Figure

from generator.codes.layers import code_for
from generator.codes.packs import Pack, with_pump_out
from generator.figures import (
    load_test_chart,
    pipe_strip,
    plan,
    solids_bar,
    tank_section,
)
from generator.figures.plan_near import nearer
from generator.figures.style import svg
from generator.findings.answers import answers, first_to_do
from generator.findings.finding import Answer, Finding
from generator.findings.judge import judge
from generator.pages.compose import Job, compose
from generator.pages.page import Picture
from generator.problems import Problem, Refused
from generator.record.load import Workspace, load
from generator.record.model import Record
from generator.record.parts import HOLDING_TANK
from generator.results.compute import compute, tested_tank
from generator.results.result import Results, nominal
from generator.results.site_plan import site_plan_result
from generator.results.solids_bars import solids_bars
from generator.shipped import shipped
from generator.website import links, photos, publish, render, tree

FIRST_LINK = 1
TANK_CAPTION = "Section through the tank, to scale."
SOLIDS_CAPTION = (
    "Each source by itself; the mark is its limit, the thin line how sure the measure "
    "is."
)
TEST_CAPTION = "Level and water against time. Touch the figure to see it larger."
PIPE_CAPTION = "The pipe along its length."

Drawn = tuple[Picture, bytes]


@dataclass(frozen=True)
class Worked:
    """A job with all that was worked out and judged."""

    record: Record
    pack: Pack | None
    results: Results
    findings: list[Finding]
    answers: list[Answer]


def work_out(workspace: Workspace, job: str) -> Worked:
    """Take a job from its file to its five answers.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.

    Returns
    -------
    Worked
        Record, results, findings and answers.

    Raises
    ------
    Refused
        With every problem of the job.
    """
    record = load(workspace, job)
    pack = code_for(record)
    results = compute(record, pack)
    findings = judge(record, results, pack)
    return Worked(record, pack, results, findings, answers(findings, results))


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


def draw(worked: Worked) -> dict[str, Drawn]:
    """Draw every figure of a job: its caption and text alternative, and its SVG."""
    found = chain(_plans(worked), _tanks(worked), _test(worked), _pipes(worked))
    return {picture.name: (picture, image) for picture, image in found}


def _plans(worked: Worked) -> Iterator[Drawn]:
    parts = worked.results.parts
    lot = site_plan_result(worked.record.inspection, parts["spots"], parts["pairs"])
    if lot is None:
        return
    picture = Picture("plan", plan.CAPTION, plan.describe(lot))
    yield _drawn(picture, plan.draw(lot), "Where everything is")
    near = nearer(lot)
    if near is not None:
        picture = Picture("plan-near", plan.NEAR_CAPTION, plan.describe(near))
        yield _drawn(picture, plan.draw(near), "Nearer by")


def _tanks(worked: Worked) -> Iterator[Drawn]:
    tested, test = tested_tank(worked.record), worked.results.parts["load_test"]
    for number, tank in enumerate(worked.record.inspection.tanks, 1):
        if tank.kind == HOLDING_TANK:  # the section shows an outlet, which it has not
            continue
        rows = test.rows if test and tank is tested else []
        levels = [nominal(row.level_in) for row in rows]
        words = tank_section.describe(tank, levels)
        picture = Picture(f"tank-{number}", TANK_CAPTION, words)
        yield _drawn(picture, tank_section.draw(tank, levels), tank.name)
        bars = solids_bars(worked.results, tank.name, with_pump_out())
        if bars:
            words = solids_bar.describe(bars)
            picture = Picture(f"solids-{number}", SOLIDS_CAPTION, words)
            yield _drawn(picture, solids_bar.draw(bars), "Solids")


def _test(worked: Worked) -> Iterator[Drawn]:
    test = worked.results.parts["load_test"]
    recorded = worked.record.inspection.load_test
    if test and recorded:
        words = load_test_chart.describe(test, recorded.limits)
        chart = load_test_chart.draw(test, recorded.limits)
        yield _drawn(Picture("load-test", TEST_CAPTION, words), chart, "The load test")


def _pipes(worked: Worked) -> Iterator[Drawn]:
    for number, inside in enumerate(worked.results.parts["pipes"], 1):
        words = pipe_strip.describe(inside.run, inside.expected_in)
        strip = pipe_strip.draw(inside.run, inside.expected_in)
        picture = Picture(f"pipe-{number}", PIPE_CAPTION, words)
        yield _drawn(picture, strip, inside.run.name)


def _drawn(picture: Picture, figure: Figure, title: str) -> Drawn:
    return picture, svg(figure, title=title, description=picture.alternative)


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
