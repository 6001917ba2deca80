"""A link is stable, cannot be guessed, and never gives the secret away."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from generator.problems import Refused
from generator.website.links import NAME, SECRET_VARIABLE, folder_name, read_secret

SECRET = b"an example, not a secret"


@pytest.fixture(autouse=True)
def _no_secret_around(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(SECRET_VARIABLE, raising=False)
    monkeypatch.delenv("CI", raising=False)


def test_known_link() -> None:
    # printf 'onlot-link-1\n8:2026-014\n1' \
    #   | openssl dgst -sha256 -hmac "an example, not a secret" -binary \
    #   | head -c 20 | base32 | tr A-Z a-z
    assert folder_name(SECRET, "2026-014", 1) == "bcsl5wyoobghee4de3e6c6ctipxqahsm"


def test_every_part_counts() -> None:
    links = {
        folder_name(secret, job, number)
        for secret in (SECRET, b"another example of one")
        for job in ("2026-014", "2026-015", "2026-01", "2026-014\n1", "")
        for number in (1, 2, 11)
    }
    assert len(links) == 2 * 5 * 3
    assert all(NAME.fullmatch(link) for link in links)


def test_one_name_written_in_two_ways_is_one_job() -> None:
    composed, decomposed = "Stra\u00dfe-M\u00fchl", "Stra\u00dfe-Mu\u0308hl"
    assert folder_name(SECRET, composed, 1) == folder_name(SECRET, decomposed, 1)


@pytest.mark.parametrize("number", [0, -1])
def test_links_count_from_one(number: int) -> None:
    with pytest.raises(ValueError, match="numbered from 1"):
        folder_name(SECRET, "2026-014", number)


def test_secret_is_made_once(tmp_path: Path) -> None:
    first, made = read_secret(tmp_path)
    again, made_again = read_secret(tmp_path)
    assert (made, made_again) == (True, False)
    assert first == again
    assert len(first) == 64
    assert read_secret(tmp_path / "other")[0] != first


@pytest.mark.skipif(os.name != "posix", reason="rights of a file are POSIX")
def test_secret_is_for_its_owner(tmp_path: Path) -> None:
    read_secret(tmp_path)
    path = tmp_path / ".onlot" / "link-secret"
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    path.chmod(0o644)
    read_secret(tmp_path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_folder_of_the_secret_is_ignored_by_git(tmp_path: Path) -> None:
    read_secret(tmp_path)
    folder = tmp_path / ".onlot"
    assert (folder / ".gitignore").read_text() == "*\n"
    assert sorted(entry.name for entry in folder.iterdir()) == [
        ".gitignore",
        "link-secret",
    ]


def test_environment_wins(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read_secret(tmp_path)
    monkeypatch.setenv(SECRET_VARIABLE, " sixteen bytes or more\n")
    assert read_secret(tmp_path) == (b"sixteen bytes or more", False)


def test_the_file_can_move_into_the_environment(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    secret, _ = read_secret(tmp_path)
    text = (tmp_path / ".onlot" / "link-secret").read_text()
    monkeypatch.setenv(SECRET_VARIABLE, text)
    assert read_secret(tmp_path / "elsewhere") == (secret, False)
    assert not (tmp_path / "elsewhere").exists()


@pytest.mark.parametrize("short", ["   ", "fifteen bytes!!"])
def test_short_secret_is_refused_and_not_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, short: str
) -> None:
    monkeypatch.setenv(SECRET_VARIABLE, short)
    with pytest.raises(Refused) as refused:
        read_secret(tmp_path)
    [problem] = refused.value.problems
    assert problem.message == (
        "The secret that links are made from has "
        f"{len(short.strip())} bytes; it needs 16 or more."
    )
    for told in (str(refused.value), repr(refused.value), repr(problem)):
        assert not short.strip() or short.strip() not in told


@pytest.mark.parametrize("variable", ["CI", SECRET_VARIABLE])
def test_a_pipeline_without_the_secret_makes_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, variable: str
) -> None:
    """It could not keep one: every run would change every link."""
    monkeypatch.setenv(variable, "true" if variable == "CI" else "")
    with pytest.raises(Refused) as refused:
        read_secret(tmp_path)
    assert str(refused.value) == (
        "ONLOT_LINK_SECRET: The secret that links are made from is missing here.\n"
        "  Set ONLOT_LINK_SECRET as a masked variable of the pipeline, with the text "
        "of .onlot/link-secret from the machine of the firm."
    )
    assert not list(tmp_path.iterdir())


def test_short_file_is_refused(tmp_path: Path) -> None:
    folder = tmp_path / ".onlot"
    folder.mkdir()
    (folder / "link-secret").write_text("k3y")
    with pytest.raises(Refused, match="has 3 bytes") as refused:
        read_secret(tmp_path)
    assert "k3y" not in str(refused.value)


def test_unwritable_place_is_told_plainly(tmp_path: Path) -> None:
    (tmp_path / ".onlot").write_text("a file where a folder should be")
    with pytest.raises(Refused, match="cannot be read or written here"):
        read_secret(tmp_path)
