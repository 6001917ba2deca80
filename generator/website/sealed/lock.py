"""Sealing itself: a text is packed and encrypted with AES-256-GCM, or opened again.

Sources: NIST SP 800-38D (GCM), RFC 2104 (HMAC) and RFC 1950 (zlib), from memory.
"""

from __future__ import annotations

import hashlib
import hmac
import zlib

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

from generator.website.sealed.keys import Keys

LABEL = b"onlot-sealed-report-1"  # sealed along: another kind of file never opens
NONCE_BYTES = 12  # the 96 bits that GCM is made for
PACKED = 9  # zlib's smallest


class WrongKeyError(Exception):
    """A key that does not open this file, or a file that is not as it was sealed."""


def locked(text: str, keys: Keys) -> bytes:
    """Pack a text and seal it.

    Parameters
    ----------
    text : str
        What only the holder of the key may read.
    keys : Keys
        From ``keys_of``.

    Returns
    -------
    bytes
        The nonce, the encrypted bytes and the tag that shows any change of them.

    Notes
    -----
    GCM breaks where one key and one nonce seal two different texts. The nonce is the
    first 96 bits of HMAC-SHA-256 of the packed text under a second key, so that the
    same report gives the same file, and another report another nonce: two reports of
    one link would share one by a chance of 1 in 2^96. That a nonce comes back only
    with the same bytes is harmless: the file is then the same.

    Examples
    --------
    >>> from generator.website.sealed.keys import keys_of
    >>> keys = keys_of(b"an example, not a secret", "2026-014", 1)
    >>> opened(locked("a report", keys), keys.key)
    'a report'
    """
    packed = zlib.compress(text.encode("utf-8"), PACKED)
    nonce = hmac.new(keys.nonce_key, packed, hashlib.sha256).digest()[:NONCE_BYTES]
    return nonce + AESGCM(keys.key).encrypt(nonce, packed, LABEL)


def opened(sealed: bytes, key: bytes) -> str:
    """Open what was sealed, as the reader's browser does.

    Raises
    ------
    WrongKeyError
        If the key is another, or one bit of the file is not as it was.
    """
    nonce, rest = sealed[:NONCE_BYTES], sealed[NONCE_BYTES:]
    try:
        packed = AESGCM(key).decrypt(nonce, rest, LABEL)
    except (InvalidTag, ValueError):
        raise WrongKeyError from None
    return zlib.decompress(packed).decode("utf-8")
