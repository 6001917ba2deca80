"""What one site was made from: versions, and a digest of each file that went in."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from importlib import metadata
from pathlib import Path
from platform import python_version

from generator import __version__
from generator.codes import packs
from generator.codes.layers import Code, Layer
from generator.pages.compose import TEMPLATES
from generator.pages.origin import Origin
from generator.record.firm_file import FIRM_FILE
from generator.record.load import Workspace
from generator.shipped import shipped
from generator.stamps import LIBRARIES, PACKAGE, of_onlot
from generator.website.look import FIRM_LOOK
from generator.worked import Worked

SCHEMAS = ("inspection", "firm", "code")
OUR_LOOK = "mkdocs.yml"


def made_of(workspace: Workspace, worked: Worked, origin: Origin) -> dict[str, object]:
    """Tell what the site of a job is made from.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    worked : Worked
        The job, worked out.
    origin : Origin
        Where its file stands in the firm's history.

    Returns
    -------
    dict of str to object
        Versions and digests, nothing of another job, and nothing that is secret or
        belongs to one machine.
    """
    return {
        "job": worked.record.job,
        "report": origin.report,
        "commit": origin.commit,
        "onlot": {"version": __version__, "code": of_onlot()},
        "python": python_version(),
        "libraries": dict(_versions()),
        "files_of_the_firm": _digests(_of_firm(workspace, worked), workspace.root),
        "files_of_onlot": {
            **_digests(_of_onlot(worked), PACKAGE, _of_ours),
            **{name: _of_ours(shipped(name)) for name in _beside()},
        },
    }


def _of_firm(workspace: Workspace, worked: Worked) -> Iterator[Path]:
    record = worked.record
    yield workspace.job_file(record.job)
    for photo in record.inspection.photos:
        yield workspace.photo_folder(record.job) / photo.file
    yield workspace.inspections / FIRM_FILE
    if record.firm.logo:
        yield workspace.inspections / record.firm.logo
    yield workspace.root / FIRM_LOOK
    for layer in _layers(worked):
        if layer.own is not None:
            yield workspace.inspections / "codes" / f"{layer.own.name}.yaml"


def _of_onlot(worked: Worked) -> Iterator[Path]:
    """List the packs in use here, the guides that every tank is held to, the texts."""
    used = {layer.shipped.name for layer in _layers(worked) if layer.shipped}
    used |= {pack.name for pack in packs.with_pump_out()}
    for name in sorted(used):
        yield packs.FOLDER / f"{name}.yaml"
    yield from sorted(TEMPLATES.glob("*.jinja"))


def _layers(worked: Worked) -> list[Layer]:
    code = worked.pack
    if not isinstance(code, Code):
        return []
    return [*code.layers, *([code.program] if code.program else [])]


def _beside() -> list[str]:
    return [OUR_LOOK, *(f"schemas/{name}.schema.json" for name in SCHEMAS)]


def _digests(
    files: Iterable[Path], top: Path, digest: Callable[[Path], str] | None = None
) -> dict[str, str]:
    """Digest files by path; one that is not there went into nothing."""
    return {
        path.relative_to(top).as_posix(): (digest or _digest)(path)
        for path in files
        if path.is_file()
    }


def _digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


@cache
def _of_ours(path: Path) -> str:
    """Digest a file of onlot, which is loaded and does not change any longer."""
    return _digest(path)


@cache
def _versions() -> tuple[tuple[str, str], ...]:
    return tuple((name, metadata.version(name)) for name in LIBRARIES)
