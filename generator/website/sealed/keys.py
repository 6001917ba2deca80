"""The key and the file name of a sealed report, made from the firm's link secret.

Sources: RFC 5869 (HKDF) and RFC 4648, section 6 (base32), cited from memory.
"""

from __future__ import annotations

import base64
import unicodedata
from dataclasses import dataclass

from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

from generator.website.links import NAME_BYTES

KEY_BYTES = 32  # AES-256
KEY = b"onlot-sealed-key-1"
NONCE = b"onlot-sealed-nonce-1"
NAME = b"onlot-sealed-name-1"


@dataclass(frozen=True)
class Keys:
    """What is made from the secret for one link of one job.

    Parameters
    ----------
    key : bytes
        What the report is sealed with; it travels in the link.
    nonce_key : bytes
        What nonces are made with; it stays with the firm.
    name : str
        Name of the file without its ending, which says nothing about the job.
    """

    key: bytes
    nonce_key: bytes
    name: str


def keys_of(secret: bytes, job: str, number: int) -> Keys:
    """Make the keys and the file name for one link of one job.

    Parameters
    ----------
    secret : bytes
        The firm's secret, from ``links.read_secret``.
    job : str
        Name of the job file, without its ending.
    number : int
        Number of the link, from 1. [-]

    Returns
    -------
    Keys
        Always the same for the same three. None of them tells anything about another.

    Notes
    -----
    HKDF with SHA-256 (RFC 5869), without salt. The info is a label of the purpose, the
    length of the name in bytes, the name and the number, so that no two share it.

    Examples
    --------
    >>> keys_of(b"an example, not a secret", "2026-014", 1).name
    'ndns64b3haairkqi3i6wbjgyyrjtqewd'
    """
    if number < 1:
        raise ValueError("links are numbered from 1")
    job_name = unicodedata.normalize("NFC", job).encode("utf-8")

    def made(label: bytes, length: int) -> bytes:
        info = b"%s\n%d:%s\n%d" % (label, len(job_name), job_name, number)
        return HKDF(SHA256(), length, salt=None, info=info).derive(secret)

    name = typed(made(NAME, NAME_BYTES))
    return Keys(made(KEY, KEY_BYTES), made(NONCE, KEY_BYTES), name)


def typed(key: bytes) -> str:
    """Write bytes in small letters and digits, which no message program alters.

    Examples
    --------
    >>> typed(bytes(5)), len(typed(bytes(32)))
    ('aaaaaaaa', 52)
    """
    return base64.b32encode(key).decode("ascii").rstrip("=").lower()
