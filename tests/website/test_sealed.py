"""A sealed report: its keys, its lock, the page made whole and the page around it."""

from __future__ import annotations

import base64
import hashlib
import hmac
import re
import zlib
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

from generator.website import links
from generator.website.sealed import whole
from generator.website.sealed.keys import keys_of, typed
from generator.website.sealed.lock import (
    LABEL,
    NONCE_BYTES,
    WrongKeyError,
    locked,
    opened,
)
from generator.website.sealed.shell import sealed_page

LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
SECRET = b"a secret for tests only, never used for a client"
PNG_LIKE = b"\xff\xd8\xff" + bytes(range(256))


def hkdf(secret: bytes, salt: bytes, info: bytes, length: int) -> bytes:
    """RFC 5869, sections 2.2 and 2.3, written out once more for the test."""
    first = hmac.new(salt or bytes(32), secret, hashlib.sha256).digest()
    made = block = b""
    while len(made) < length:
        number = bytes([len(made) // 32 + 1])
        block = hmac.new(first, block + info + number, hashlib.sha256).digest()
        made += block
    return made[:length]


def test_keys_are_made_as_the_standard_says() -> None:
    """Test cases 1 and 3 of RFC 5869, appendix A, from memory; then our own."""
    salt, info = bytes(range(13)), bytes(range(0xF0, 0xFA))
    assert hkdf(b"\x0b" * 22, salt, info, 42).hex() == (
        "3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf"
        "34007208d5b887185865"
    )
    assert hkdf(b"\x0b" * 22, b"", b"", 42).hex() == (
        "8da4e775a563c18f715f802a063c5a31b8a11f5c5ee1879ec3454e5f3c738d2d"
        "9d201395faa4b61a96c8"
    )
    keys = keys_of(SECRET, "2026-014", 2)
    of = b"\n8:2026-014\n2"
    assert keys.key == hkdf(SECRET, b"", b"onlot-sealed-key-1" + of, 32)
    assert keys.nonce_key == hkdf(SECRET, b"", b"onlot-sealed-nonce-1" + of, 32)
    assert keys.name == typed(hkdf(SECRET, b"", b"onlot-sealed-name-1" + of, 20))


def test_the_cipher_gives_the_published_values() -> None:
    """Test case 16 of McGrew and Viega, The Galois/Counter Mode, from memory."""
    key = bytes.fromhex("feffe9928665731c6d6a8f9467308308" * 2)
    plain = bytes.fromhex(
        "d9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a72"
        "1c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b39"
    )
    beside = bytes.fromhex("feedfacedeadbeeffeedfacedeadbeefabaddad2")
    nonce = bytes.fromhex("cafebabefacedbaddecaf888")
    assert AESGCM(key).encrypt(nonce, plain, beside).hex() == (
        "522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa"
        "8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662"
        "76fc6ece0f4e1768cddf8853bb2d551b"
    )


def test_another_secret_job_or_link_has_another_key_and_name() -> None:
    made = [
        keys_of(SECRET, "2026-014", 1),
        keys_of(SECRET, "2026-014", 2),
        keys_of(SECRET, "2026-015", 1),
        keys_of(SECRET + b".", "2026-014", 1),
        keys_of(SECRET, "2026-01", 41),  # the same signs, cut elsewhere
    ]
    assert len({keys.key for keys in made}) == len(made)
    assert len({keys.nonce_key for keys in made} | {k.key for k in made}) == 10
    assert len({keys.name for keys in made}) == len(made)
    assert all(links.NAME.fullmatch(keys.name) for keys in made)
    assert made[0].name != links.folder_name(SECRET, "2026-014", 1)
    with pytest.raises(ValueError, match="numbered from 1"):
        keys_of(SECRET, "2026-014", 0)


def test_what_was_locked_opens_and_repeats() -> None:
    keys = keys_of(SECRET, LARCH, 1)
    for text in ("", "a report", "± 0.5 ft, “so”\n" * 1000):
        sealed = locked(text, keys)
        assert opened(sealed, keys.key) == text
        assert locked(text, keys) == sealed


def test_the_nonce_follows_the_text_and_the_key() -> None:
    keys, other = keys_of(SECRET, LARCH, 1), keys_of(SECRET, CATTAIL, 1)
    every = [locked(f"report {n}", keys)[:NONCE_BYTES] for n in range(500)]
    assert len(set(every)) == len(every)
    assert locked("report 0", other)[:NONCE_BYTES] != every[0]


def test_any_changed_byte_is_refused() -> None:
    keys = keys_of(SECRET, LARCH, 1)
    sealed = locked("The outlet baffle is damaged.", keys)
    for place in range(len(sealed)):
        changed = bytearray(sealed)
        changed[place] ^= 1
        with pytest.raises(WrongKeyError):
            opened(bytes(changed), keys.key)
    for cut in range(len(sealed)):
        with pytest.raises(WrongKeyError):
            opened(sealed[:cut], keys.key)


def test_another_key_or_kind_of_file_is_refused() -> None:
    keys = keys_of(SECRET, LARCH, 1)
    sealed = locked("a report", keys)
    for key in (keys_of(SECRET, LARCH, 2).key, keys.nonce_key, keys.key[:16], b""):
        with pytest.raises(WrongKeyError):
            opened(sealed, key)
    nonce, packed = bytes(NONCE_BYTES), zlib.compress(b"a report")
    with pytest.raises(WrongKeyError):
        opened(nonce + AESGCM(keys.key).encrypt(nonce, packed, LABEL + b"x"), keys.key)


def test_a_key_is_letters_and_digits_that_read_back() -> None:
    for key in (bytes(32), b"\xff" * 32, keys_of(SECRET, LARCH, 1).key):
        assert re.fullmatch("[a-z2-7]{52}", typed(key))
        assert base64.b32decode(typed(key).upper() + "====") == key


def test_the_page_around_it_escapes_the_firm() -> None:
    page = sealed_page(b"sealed", '<script>"Firm" & Sons', "555-0100")
    assert "&lt;script&gt;&quot;Firm&quot; &amp; Sons, 555-0100." in page
    assert page.count("<script") == 2


def test_the_policy_names_the_one_script() -> None:
    page = sealed_page(b"sealed", "Firm", "555-0100")
    [script] = re.findall(r"<script>(.*?)</script>", page, re.S)
    digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
    assert (
        "content=\"default-src 'none'; "
        f"script-src 'sha256-{digest}'; style-src 'unsafe-inline'; img-src data:; "
        "base-uri 'none'; form-action 'none'\""
    ) in page
    assert page.index("Content-Security-Policy") < page.index("<style>")
    for word in ("innerHTML", "document.write", "eval(", "fetch(", "localStorage"):
        assert word not in script


def page_with(folder: Path, article: str) -> Path:
    (folder / "photos").mkdir()
    (folder / "assets").mkdir()
    (folder / "assets" / "own.css").write_text(".own { color: red; }\n")
    for name in ("a.jpg", "a-large.jpg"):
        (folder / "photos" / name).write_bytes(PNG_LIKE + name.encode())
    head = (
        '<link rel="stylesheet" href="assets/stylesheets/theme.css">'
        '<link rel="stylesheet" href="assets/own.css">'
    )
    page = folder / "paper.html"
    page.write_text(
        f"<head>{head}<script>theme()</script></head><body><nav>site</nav>"
        f'<article class="x">{article}</article><script>more()</script></body>'
    )
    return page


def test_a_page_is_made_whole(tmp_path: Path) -> None:
    shown = '<a href="photos/a-large.jpg"><img src="photos/a.jpg" alt="1 &lt; 2"></a>'
    page = page_with(
        tmp_path,
        f'<p>A &amp; B &#8212; <a href="#here">here</a> <a href="tank.html">tank</a> '
        f'<a href="https://law.example/">law</a><br /></p>{shown}{shown}',
    )
    made = whole.whole_page(page, "A title")
    large = base64.b64encode((tmp_path / "photos" / "a-large.jpg").read_bytes())
    assert (
        '<p>A &amp; B &#8212; <a href="#here">here</a> tank '
        '<a href="https://law.example/">law</a><br /></p>'
        f'<img src="data:image/jpeg;base64,{large.decode()}" alt="1 &lt; 2">'
        '<img data-same="0" alt="1 &lt; 2">'
    ) in made
    assert ".own { color: red; }" in made
    for word in ("<script", "<nav", "theme.css", "<link"):
        assert word not in made


def test_pictures_are_small_where_the_large_ones_weigh_too_much(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = page_with(
        tmp_path, '<a href="photos/a-large.jpg"><img src="photos/a.jpg" alt=""></a>'
    )
    small = base64.b64encode((tmp_path / "photos" / "a.jpg").read_bytes()).decode()
    assert small not in whole.whole_page(page, "A title")
    monkeypatch.setattr(whole, "LARGE_BYTES", 100)
    assert f'<img src="data:image/jpeg;base64,{small}" alt="">' in whole.whole_page(
        page, "A title"
    )
