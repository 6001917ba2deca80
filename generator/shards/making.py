"""One share of a build, made into a folder that can be carried, and not published."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from generator.pipeline import Order, made
from generator.problems import Problem, Refused
from generator.record.load import Workspace
from generator.shards.manifest import FILE, Manifest, Part, is_ours, written
from generator.shards.share import Share
from generator.stamps import programs
from generator.survey import Survey, opened, surveyed
from generator.website import links, publish
from generator.website.changes import Edition, changes
from generator.website.disk import digest, settle
from generator.website.exchange import exchange
from generator.website.stage import NEW, OLD, make_ready, remove
from generator.workers import Outcome

PLACE = Path("build") / "shards"
NOT_INSIDE = "A shard cannot be put inside {folder}/."
ANOTHER = "Name another folder with --out."
NO_SHARD = "This is no shard that was made before, so nothing in it was touched."


@dataclass(frozen=True)
class Made:
    """A shard that was made.

    Parameters
    ----------
    folder : pathlib.Path
        Where it lies.
    manifest : Manifest
        What it says of itself.
    """

    folder: Path
    manifest: Manifest

    def problems(self) -> dict[str, tuple[Problem, ...]]:
        """Give what is wrong, by job, with those that have no site in it."""
        parts = self.manifest.parts.items()
        return {job: one.problems for job, one in parts if one.problems}


def make_shard(
    workspace: Workspace,
    order: Order,
    share: Share,
    folder: Path,
    note: Callable[[str], None],
) -> Made:
    """Build the jobs of one share, and write them into a folder at once.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    order : Order
        How to build, and what is published already: a site that still stands there is
        taken over. Nothing there is changed.
    share : Share
        The share.
    folder : pathlib.Path
        The folder; an earlier shard in it is replaced.
    note : callable
        Told what the firm must know.

    Returns
    -------
    Made
        The shard, with the problems of those jobs that have any.

    Raises
    ------
    Refused
        With what concerns the firm as a whole, or where the folder cannot be used; an
        earlier shard in it stays as it was.
    """
    _may_stand(workspace, order.public, folder)
    secret = links.common_secret(workspace.root)
    with publish.alone(workspace.root / "build"):
        found = opened(workspace, secret, order.public, order.today)
        names = {job: found.reports[job] for job in share.of(found.reports)}
        survey = surveyed(workspace, found, names, order.public, note, order.hand)
        outcomes = _outcomes(workspace, order, survey, note)
        jobs = tuple(sorted(found.reports))
        begun = Manifest(share, jobs, programs(), (), {})
        stage = folder.with_name(f".{folder.name}.next")
        folder.parent.mkdir(parents=True, exist_ok=True)
        remove(stage)  # what a killed run left
        try:
            manifest = _staged(stage, outcomes, survey, begun)
            _put(stage, folder)
        finally:
            with suppress(OSError):  # what stays behind goes at the next start
                remove(stage)
    return Made(folder, manifest)


def _outcomes(
    workspace: Workspace, order: Order, survey: Survey, note: Callable[[str], None]
) -> dict[str, Outcome]:
    """Build what changed; take over what stands byte for byte as it was published."""
    changed = set(
        survey.to_build(
            note,
            everything=order.everything,
            explain=order.explain,
            hand=order.hand,
        )
    )
    stand = [
        job
        for job in survey.names
        if job not in changed and survey.stale.stands_whole(job)
    ]
    taken = {job: order.public / survey.names[job] for job in stand}
    jobs = [job for job in survey.names if job not in taken]
    return {**taken, **made(workspace, order, survey, jobs)}


def _staged(
    stage: Path, outcomes: Mapping[str, Outcome], survey: Survey, manifest: Manifest
) -> Manifest:
    """Make sites and theme ready as they will be published, and tell of them."""
    sites = {
        survey.names[job]: one for job, one in outcomes.items() if isinstance(one, Path)
    }
    told = changes(Edition(sites), stage / "nothing", ())
    make_ready(stage, replace(told, files={}))
    parts = {
        job: _part(stage / NEW, outcomes[job], survey, job) for job in survey.names
    }
    whole = replace(manifest, themes=tuple(sorted(told.copies)), parts=parts)
    (stage / NEW / FILE).write_bytes(written(whole))
    settle(stage)
    return whole


def _part(new: Path, outcome: Outcome, survey: Survey, job: str) -> Part:
    name, inputs = survey.names[job], survey.inputs(job)
    if isinstance(outcome, Refused):
        return Part(name, inputs, "", outcome.problems)
    return Part(name, inputs, digest(new / name))


def _put(stage: Path, folder: Path) -> None:
    """Let the new shard take the place of an earlier one, if any."""
    new = stage / NEW
    if folder.exists() and not exchange(new, folder):
        folder.rename(stage / OLD / folder.name)
    if new.exists() and not folder.exists():
        new.rename(folder)


def _may_stand(workspace: Workspace, public: Path, folder: Path) -> None:
    """Refuse a folder that is somebody else's."""
    place = folder.resolve()
    for taken in (workspace.inspections, public):
        if place.is_relative_to(taken.resolve()):
            message = NOT_INSIDE.format(folder=taken.name)
            raise Refused([Problem(str(folder), 0, "", message, ANOTHER)])
    if folder.is_symlink() or (folder.exists() and not _is_ours(folder)):
        raise Refused([Problem(str(folder), 0, "", NO_SHARD, ANOTHER)])


def _is_ours(folder: Path) -> bool:
    """Tell an earlier shard, or a folder of nothing, from somebody else's."""
    if not folder.is_dir():
        return False
    file = folder / FILE
    return is_ours(file.read_bytes()) if file.is_file() else not any(folder.iterdir())
