"""The unguessable, stable name of a client's folder, made from the firm's secret."""

from __future__ import annotations

import base64
import hashlib
import hmac
import os
import re
import secrets
import unicodedata
from pathlib import Path

from generator.problems import Problem, Refused

SECRET_VARIABLE = "ONLOT_LINK_SECRET"
PIPELINE_VARIABLE = "CI"  # both common git hosts set it in their pipelines
SECRET_FILE = Path(".onlot") / "link-secret"

LEAST_SECRET_BYTES = 16  # our choice: 128 bits, beyond any guessing
NEW_SECRET_BYTES = 32  # our choice: as long as the digest it is used with
NAME_BYTES = 20  # our choice: 160 bits, which base32 writes in 32 signs
NAME = re.compile(r"[a-z2-7]{32}")
MESSAGE_VERSION = b"onlot-link-1"


def folder_name(secret: bytes, job: str, number: int) -> str:
    """Name of the folder behind one link of one job.

    Parameters
    ----------
    secret : bytes
        The firm's secret, from ``read_secret``.
    job : str
        Name of the job file, without its ending.
    number : int
        Number of the link, from 1; a renewed link has the next number. [-]

    Returns
    -------
    str
        Thirty-two small letters and digits, always the same for the same three.

    Notes
    -----
    The first 160 bits of HMAC-SHA-256 (RFC 2104, FIPS 180-4), in base32 (RFC 4648,
    section 6) in small letters. The message is the version, the length of the name in
    bytes, the name and the number, so that no two jobs share a message.

    Examples
    --------
    >>> folder_name(b"an example, not a secret", "2026-014", 1)
    'bcsl5wyoobghee4de3e6c6ctipxqahsm'
    """
    if number < 1:
        raise ValueError("links are numbered from 1")
    name = unicodedata.normalize("NFC", job).encode("utf-8")
    message = b"%s\n%d:%s\n%d" % (MESSAGE_VERSION, len(name), name, number)
    digest = hmac.new(secret, message, hashlib.sha256).digest()
    return base64.b32encode(digest[:NAME_BYTES]).decode("ascii").lower()


def address(base: str | None, name: str | None) -> str:
    """Write the private link itself; empty where either part is not known.

    Examples
    --------
    >>> address("https://reports.onlot.example/", "bcsl5wyoobghee4de3e6c6ctipxqahsm")
    'https://reports.onlot.example/bcsl5wyoobghee4de3e6c6ctipxqahsm/'
    """
    return f"{base.rstrip('/')}/{name}/" if base and name else ""


def has_secret(workspace: Path) -> bool:
    """Tell whether a secret is there already, without making one."""
    given = os.environ.get(SECRET_VARIABLE)
    return bool(given) or (workspace / SECRET_FILE).is_file()


def kept_secret(workspace: Path, what: str) -> bytes:
    """Give the secret that was made before, or refuse: only a build makes one.

    ``what`` says what is made from it, such as "the key is".
    """
    if not has_secret(workspace):
        message = f"There is no link secret yet, which {what} made from."
        hint = "The first build makes it: onlot build."
        raise Refused([Problem(SECRET_FILE.as_posix(), 0, "", message, hint)])
    return read_secret(workspace)[0]


def common_secret(workspace: Path) -> bytes:
    """Give the secret that several machines share, or refuse: none of them makes one.

    Parameters
    ----------
    workspace : Path
        The firm's folder.

    Returns
    -------
    bytes
        The secret.

    Raises
    ------
    Refused
        Where there is none, or it is too short or cannot be read.
    """
    if not has_secret(workspace):
        raise _missing()
    return read_secret(workspace)[0]


def read_secret(workspace: Path) -> tuple[bytes, bool]:
    """The firm's secret, made on first use.

    Parameters
    ----------
    workspace : Path
        The firm's folder. The secret lies in its ``.onlot/link-secret``, unless the
        environment variable ``ONLOT_LINK_SECRET`` is set.

    Returns
    -------
    tuple[bytes, bool]
        The secret, and whether it was made just now and must be kept safe by someone.

    Raises
    ------
    Refused
        If the secret is too short, or its file cannot be read or written; or if it
        is missing in a pipeline, which could not keep a new one.
    """
    given = os.environ.get(SECRET_VARIABLE)
    if given == "":  # what a pipeline gives for a variable that nobody set
        raise _missing()
    if given is not None:
        secret = given.encode("utf-8", "surrogateescape")
        return _checked(secret, SECRET_VARIABLE), False
    path = workspace / SECRET_FILE
    if os.environ.get(PIPELINE_VARIABLE) and not path.is_file():
        raise _missing()
    try:
        made = _make(path)
        if path.stat().st_mode & 0o077:
            path.chmod(0o600)
        return _checked(path.read_bytes(), str(path)), made
    except OSError as error:
        raise Refused(
            [
                Problem(
                    str(path),
                    0,
                    "",
                    f"The secret that links are made from cannot be read or written "
                    f"here: {error.strerror}.",
                    f"Set {SECRET_VARIABLE}, or make the folder writable.",
                )
            ]
        ) from None


def _missing() -> Refused:
    """A pipeline cannot keep a new secret, and the next run would make another."""
    message = "The secret that links are made from is missing here."
    hint = (
        f"Set {SECRET_VARIABLE} as a masked variable of the pipeline, with the text of "
        f"{SECRET_FILE.as_posix()} from the machine of the firm."
    )
    return Refused([Problem(SECRET_VARIABLE, 0, "", message, hint)])


def _make(path: Path) -> bool:
    """Write a new secret unless there is one; say whether it was written."""
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    ignore = path.parent / ".gitignore"
    if not ignore.exists():
        ignore.write_text("*\n", encoding="ascii")  # no repository takes the secret in
    if path.exists():
        return False
    draft = path.with_name(f"{path.name}.{secrets.token_hex(4)}")
    handle = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(handle, "w", encoding="ascii") as file:
            file.write(secrets.token_hex(NEW_SECRET_BYTES) + "\n")
            file.flush()
            os.fsync(file.fileno())
        os.link(draft, path)  # whole or not at all, and never over another's
    except FileExistsError:
        return False
    finally:
        draft.unlink()
    return True


def _checked(secret: bytes, place: str) -> bytes:
    """The secret without the space around it, once it is long enough."""
    secret = secret.strip()
    if len(secret) < LEAST_SECRET_BYTES:
        raise Refused(
            [
                Problem(
                    place,
                    0,
                    "",
                    f"The secret that links are made from has {len(secret)} bytes; "
                    f"it needs {LEAST_SECRET_BYTES} or more.",
                    "Put back the secret the firm has used so far: a new one changes "
                    "every client's link.",
                )
            ]
        )
    return secret
