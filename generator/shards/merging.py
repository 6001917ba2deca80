"""All shards of a build are checked, and then published as a build is, or none."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

from generator.pipeline import Order, Published, looked_over, put_out
from generator.problems import Problem, Refused
from generator.record.load import Workspace
from generator.shards.carried import carried
from generator.shards.fitting import together, unfit
from generator.survey import Survey, may_publish
from generator.website import links, publish
from generator.workers import Bench, Outcome, Task


def merge(
    workspace: Workspace,
    order: Order,
    folders: Sequence[Path],
    note: Callable[[str], None],
) -> Published:
    """Publish what several machines have built.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder, as it was when the shards were made.
    order : Order
        All jobs, where they go, and the day.
    folders : sequence of pathlib.Path
        The folders of all shards of one build.
    note : callable
        Told what a build tells.

    Returns
    -------
    Published
        As of a build: a job with problems leaves the others alone.

    Raises
    ------
    Refused
        With everything that keeps the shards from being published; what is published
        has not changed then.
    """
    may_publish(workspace, order.public)
    secret = links.common_secret(workspace.root)
    problems: list[Problem] = []
    found = [carried(folder, problems) for folder in folders]
    shards = [shard for shard in found if shard]
    problems += together(shards, all_read=len(shards) == len(found))
    with publish.alone(workspace.root / "build"):
        try:
            survey = looked_over(workspace, order, secret, note)
        except Refused as refused:
            raise Refused([*problems, *refused.problems]) from None
        problems += unfit(shards, survey, workspace)
        if problems:
            raise Refused(problems)
        made = {job: one for shard in shards for job, one in shard.outcomes().items()}
        jobs = _to_publish(survey, made, note)
        whole = replace(order, make=partial(_taken, made))
        return put_out(workspace, whole, survey, jobs, note)


def _to_publish(
    survey: Survey, made: Mapping[str, Outcome], note: Callable[[str], None]
) -> list[str]:
    """List the jobs whose published site no longer stands, and those with problems."""
    changed = set(survey.to_build(note, everything=False, explain=False))
    return [
        job for job in survey.names if job in changed or isinstance(made[job], Refused)
    ]


def _taken(
    made: Mapping[str, Outcome],
    bench: Bench,  # as every maker takes it
    tasks: Sequence[Task],
    done: Callable[[str], None],
) -> dict[str, Outcome]:
    """Take sites that were built elsewhere; a ``Maker``."""
    for one in tasks:
        done(one.job)
    return {one.job: made[one.job] for one in tasks}
