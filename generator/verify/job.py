"""What differs between the job file of a commit and the one that record.json names."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from generator.problems import Refused
from generator.record.load import document_of
from generator.trail.changes import changes
from generator.trail.past import Past

NO_REVISION = (
    "The job file is not that of the commit {}, and no revision of it has the digest "
    "that record.json names."
)
ANOTHER = "The job file is not that of the commit {}, but that of the commit {}: {}."
SAME = "it says the same, written in another way"
NOT_READ = "one of the two cannot be read"


@dataclass(frozen=True)
class JobFile:
    """The job file that a report was made again from, at its commit."""

    job: str
    commit: str
    content: bytes


def job_file_words(pasts: Iterable[Past], file: JobFile, digest: str) -> str:
    """Tell which revision of a job file record.json names, and what differs in it.

    Parameters
    ----------
    pasts : iterable of Past
        Histories in which it is looked for.
    file : JobFile
        The one that the report was made again from.
    digest : str
        The SHA-256 of the job file that record.json names.

    Returns
    -------
    str
        One sentence; empty where both are the same.
    """
    if hashlib.sha256(file.content).hexdigest() == digest:
        return ""
    for past in pasts:
        revisions = [one for one in past.revisions(file.job) if one.blob.strip("0")]
        if past.repository is None or not revisions:
            continue
        contents = past.repository.blobs(one.blob for one in revisions)
        for one, content in zip(revisions, contents, strict=True):
            if hashlib.sha256(content).hexdigest() == digest:
                told = _changed(file.content, content)
                return ANOTHER.format(file.commit, one.commit, told)
    return NO_REVISION.format(file.commit)


def _changed(given: bytes, named: bytes) -> str:
    try:
        before, after = (document_of(one, "").data for one in (given, named))
    except Refused:
        return NOT_READ
    return "; ".join(map(str, changes(before, after))) or SAME
