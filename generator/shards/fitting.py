"""Whether shards belong together, and whether they were made from what lies here."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from generator.problems import Problem
from generator.record.load import Workspace
from generator.shards.carried import Shard
from generator.shards.manifest import Part
from generator.stamps import LINK, programs
from generator.survey import Survey
from generator.verify.copy import shown

TWICE = "This is share {share} once more; {other} is it too."
OF_ANOTHER = "This is share {share}, and {other} is {first}."
ONE_BUILD = "Merge the shards of one build."
MISSING = "Share {share} is missing."
NONE_READ = "Share {share} is missing, or is among those that cannot be read."
GIVE_ALL = "Give the folders of all {count} shards."
MADE_BY = "This shard was made by another version of {what} than merges it."
SAME = "Install the same versions on every machine, and make the shards again."
UNKNOWN = "The job {job} can be read here, and this shard knows nothing of it."
STRANGE = "This shard knows of the job {job}, which nobody can read here."
SAME_LOT = "Make and merge shards of the same commit, with the same --on."
OTHER_INPUTS = "Its shard was made from something else than what lies here: {kinds}."
SAME_INPUTS = "Make the shards again from what lies here."
SAME_SECRET = "Give every machine the same ONLOT_LINK_SECRET and the same commit."


def together(shards: Sequence[Shard], *, all_read: bool) -> Iterator[Problem]:
    """Tell what keeps shards from being the whole of one build.

    Parameters
    ----------
    shards : sequence of Shard
        Those whose manifest could be read, in the order in which they were named.
    all_read : bool
        Whether these are all that were named.

    Yields
    ------
    Problem
        A share that is there twice, is one of another number of shares, or is missing.
    """
    seen: dict[int, Shard] = {}
    for shard in shards:
        share, first = shard.manifest.share, shards[0]
        if share.count != first.manifest.share.count:
            told = OF_ANOTHER.format(
                share=share, other=_named(first), first=first.manifest.share
            )
            yield Problem(_named(shard), 0, "", told, ONE_BUILD)
        elif share.number in seen:
            told = TWICE.format(share=share, other=_named(seen[share.number]))
            yield Problem(_named(shard), 0, "", told, ONE_BUILD)
        else:
            seen[share.number] = shard
    for count in [one.manifest.share.count for one in shards[:1]]:
        for number in range(1, count + 1):
            if number not in seen:
                words = MISSING if all_read else NONE_READ
                told = words.format(share=f"{number}/{count}")
                yield Problem("", 0, "", told, GIVE_ALL.format(count=count))


def unfit(
    shards: Sequence[Shard], survey: Survey, workspace: Workspace
) -> Iterator[Problem]:
    """Tell where shards were made by others, or from something else than lies here.

    Parameters
    ----------
    shards : sequence of Shard
        The shards.
    survey : Survey
        All jobs that somebody may read, as they are found here.
    workspace : Workspace
        The firm's folder.

    Yields
    ------
    Problem
        What does not fit.
    """
    here = programs()
    for shard in shards:
        made_by = shard.manifest.programs
        others = [what for what in here if made_by.get(what) != here[what]]
        for what in others:
            told = MADE_BY.format(what=what)
            yield Problem(_named(shard), 0, "", told, SAME)
        yield from _of_other_jobs(shard, survey)
        for job, part in shard.manifest.parts.items():
            if job in survey.names:
                kinds = sorted(_kinds(part, survey, job) - set(others))
                file = workspace.shown(workspace.job_file(job))
                if kinds:
                    yield _of_other_inputs(file, kinds)


def _of_other_jobs(shard: Shard, survey: Survey) -> Iterator[Problem]:
    """Tell of jobs that only one side knows."""
    jobs, names = set(shard.manifest.jobs), set(survey.names)
    for words, found in ((UNKNOWN, names - jobs), (STRANGE, jobs - names)):
        for job in sorted(found):
            told = words.format(job=shown(job))
            yield Problem(_named(shard), 0, "", told, SAME_LOT)


def _kinds(part: Part, survey: Survey, job: str) -> set[str]:
    """Name the kinds of input that are not the same here."""
    here: Mapping[str, str] = survey.inputs(job)
    kinds = {*here, *part.made_from}
    other = {one for one in kinds if here.get(one) != part.made_from.get(one)}
    return other | ({LINK} if part.name != survey.names[job] else set())


def _of_other_inputs(file: str, kinds: Sequence[str]) -> Problem:
    told = OTHER_INPUTS.format(kinds=shown(", ".join(kinds)))
    hint = SAME_SECRET if LINK in kinds else SAME_INPUTS
    return Problem(file, 0, "", told, hint)


def _named(shard: Shard) -> str:
    return shown(shard.folder.as_posix())
