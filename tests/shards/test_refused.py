"""Shards that do not fit are refused, each with its sentence, and nothing changes."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from generator import stamps
from generator.pipeline import Order, build
from generator.shards.manifest import FILE, _sealed
from generator.website.links import folder_name
from tests.shards.conftest import DAY, SECRET, Firm, files, small_sites, write_small

AGAIN = "  Make this shard again, and carry it as it is."
ONE_BUILD = "  Merge the shards of one build."
SAME_LOT = "  Make and merge shards of the same commit, with the same --on."
SAME = "  Install the same versions on every machine, and make the shards again."
SAME_INPUTS = "  Make the shards again from what lies here."
SAME_SECRET = "  Give every machine the same ONLOT_LINK_SECRET and the same commit."
ASH = folder_name(SECRET.encode(), "ash", 1)
OTHER_SITE = (
    "The site of ash is not as it was made: a file is missing, added or changed."
)


@pytest.fixture
def shards(firm: Firm) -> list[Path]:
    """Two shards of two jobs each, beside an earlier version that is published."""
    made = [firm.shard(1, 2), firm.shard(2, 2)]
    order = Order(["ash", "elm"], firm.public, DAY, make=small_sites)
    build(firm.place, order, lambda _: None)
    return made


def refused(firm: Firm, *shards: Path) -> list[str]:
    """Merge, see that nothing published changes, and give what is told."""
    before = files(firm.public)
    stamped = files(firm.root / "build" / "stamps")
    top = f"{firm.root.parent}/"
    run = firm.merge("-q", *shards)
    assert run.exit_code == 1, run.output
    assert files(firm.public) == before
    assert files(firm.root / "build" / "stamps") == stamped
    *told, last = run.output.replace(top, "").splitlines()
    count = sum(not line.startswith("  ") for line in told)
    problems = "1 problem" if count == 1 else f"{count} problems"
    assert last == f"{problems}; nothing published has changed."
    return told


def test_a_share_is_missing(firm: Firm, shards: list[Path]) -> None:
    hint = "  Give the folders of all 3 shards."
    assert refused(firm, firm.shard(2, 3)) == [
        "Share 1/3 is missing.", hint, "Share 3/3 is missing.", hint,
    ]  # fmt: skip


def test_a_share_is_there_twice_and_one_is_of_another_number(
    firm: Firm, shards: list[Path]
) -> None:
    told = refused(firm, *shards, firm.shard(1, 2, "again"), firm.shard(3, 3))
    assert told == [
        "3-of-3: This is share 3/3, and 1-of-2 is 1/2.", ONE_BUILD,
        "again: This is share 1/2 once more; 1-of-2 is it too.", ONE_BUILD,
    ]  # fmt: skip


def test_there_is_no_shard(firm: Firm, shards: list[Path]) -> None:
    told = refused(firm, firm.root / "nowhere", firm.public, shards[0])
    place = "There is no shard here: no folder with a manifest.json."
    hint = "  Name the folders that onlot build --shard has made."
    assert told == [
        "Share 2/2 is missing, or is among those that cannot be read.",
        "  Give the folders of all 2 shards.",
        f"firm/nowhere: {place}", hint, f"firm/public: {place}", hint,
    ]  # fmt: skip


def sealed(**changed: object) -> Callable[[bytes], bytes]:
    """Change what a manifest says, and seal it as if it were made so."""

    def change(content: bytes) -> bytes:
        told = json.loads(content)
        del told["digest"]
        return _sealed(told | changed)

    return change


NOT_READ = "This is not the manifest of a shard, or it is spoilt."
OTHER_LAYOUT = "This shard is laid out in another way ({}) than is read here (1)."
NOT_AS_MADE = "The digest of this manifest does not fit what it says."


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda text: b"", NOT_READ),
        (lambda text: text[:-20], NOT_READ),
        (lambda text: b"\xff" + text, NOT_READ),
        (lambda text: b"[]", NOT_READ),
        (lambda text: b"[" * 100_000, NOT_READ),
        (lambda text: b'{"layout": 1}', NOT_AS_MADE),
        (lambda text: text.replace(b'"1/2"', b'"2/2"'), NOT_AS_MADE),
        (lambda text: text.replace(b'"layout"', b' "layout"'), NOT_AS_MADE),
        (lambda text: text + b"\n", NOT_AS_MADE),
        (sealed(layout=2), OTHER_LAYOUT.format(2)),
        (sealed(share="2/2"), NOT_READ),
        (sealed(share="1"), NOT_READ),
        (sealed(jobs=[1]), NOT_READ),
        (sealed(parts={}), NOT_READ),
        (sealed(themes=["../../firm"]), NOT_READ),
    ],
)
def test_a_manifest_counts_for_nothing(
    firm: Firm, shards: list[Path], change: Callable[[bytes], bytes], told: str
) -> None:
    file = shards[0] / FILE
    file.write_bytes(change(file.read_bytes()))
    assert refused(firm, *shards) == [
        "Share 1/2 is missing, or is among those that cannot be read.",
        "  Give the folders of all 2 shards.",
        f"1-of-2/manifest.json: {told}", AGAIN,
    ]  # fmt: skip


@pytest.mark.parametrize(
    "changed",
    [
        {"name": "../../firm/inspections/ash"},
        {"name": ["a"]},
        {"site": ""},
        {"problems": [{}]},
        {"made_from": {"onlot": 1}},
    ],
)
def test_a_manifest_says_of_a_job_what_makes_no_sense(
    firm: Firm, shards: list[Path], changed: dict[str, object]
) -> None:
    file = shards[0] / FILE
    parts = json.loads(file.read_bytes())["parts"]
    parts["ash"] |= changed
    file.write_bytes(sealed(parts=parts)(file.read_bytes()))
    assert f"1-of-2/manifest.json: {NOT_READ}" in refused(firm, *shards)


def one_byte(shard: Path) -> None:
    page = shard / ASH / "index.html"
    page.write_bytes(page.read_bytes()[:-1] + b"?")


def one_less(shard: Path) -> None:
    (shard / ASH / "record.txt").unlink()


def one_more(shard: Path) -> None:
    (shard / ASH / "more.html").write_bytes(b"")


def no_site(shard: Path) -> None:
    (shard / ASH).rename(shard.parent / "away")


def another_site(shard: Path) -> None:
    (shard / ("a" * 32)).mkdir()
    (shard / ("a" * 32) / "index.html").write_bytes(b"")


def an_empty_folder(shard: Path) -> None:
    (shard / ASH / "deep").mkdir()


def a_link(shard: Path) -> None:
    (shard / ASH / "deep").symlink_to(shard.parent / "firm", target_is_directory=True)


def a_link_for_a_page(shard: Path) -> None:
    page = shard / ASH / "index.html"
    page.rename(shard.parent / "page")
    page.symlink_to(shard.parent / "page")


def a_link_for_the_manifest(shard: Path) -> None:
    (shard / FILE).rename(shard.parent / FILE)
    (shard / FILE).symlink_to(shard.parent / FILE)


def a_link_for_the_themes(shard: Path) -> None:
    (shard / "shared").rename(shard.parent / "shared")
    (shard / "shared").symlink_to(shard.parent / "shared")


def a_pipe(shard: Path) -> None:
    os.mkfifo(shard / ASH / "pipe")


def another_theme(shard: Path) -> None:
    page = next((shard / "shared").glob("*/look.css"))
    page.write_bytes(b"*" + page.read_bytes()[1:])


def no_theme(shard: Path) -> None:
    (shard / "shared").rename(shard.parent / "away")


def one_more_theme(shard: Path) -> None:
    (shard / "shared" / "x").write_bytes(b"")


LINK = "This is a link to somewhere else, not a file. It was not followed."
STRANGE = "The manifest of the shard knows nothing of this."
THEME = "1-of-2/shared/{theme}: The files of this theme are "
SPOILT = {
    one_byte: f"1-of-2/{ASH}: {OTHER_SITE}",
    one_less: f"1-of-2/{ASH}: {OTHER_SITE}",
    one_more: f"1-of-2/{ASH}: {OTHER_SITE}",
    no_site: f"1-of-2/{ASH}: The site of ash is missing.",
    another_site: f"1-of-2/{'a' * 32}: {STRANGE}",
    an_empty_folder: f"1-of-2/{ASH}/deep: This folder is empty, as none of a shard is.",
    a_link: f"1-of-2/{ASH}/deep: {LINK}",
    a_link_for_a_page: f"1-of-2/{ASH}/index.html: {LINK}",
    a_link_for_the_themes: f"1-of-2/shared: {LINK}",
    a_pipe: (
        f"1-of-2/{ASH}/pipe: This is neither a file nor a folder, so it was not read."
    ),
    another_theme: THEME + "not as they were made: one is missing, added or changed.",
    no_theme: THEME + "missing, and pages lead to them.",
    one_more_theme: f"1-of-2/shared/x: {STRANGE}",
}


@pytest.mark.parametrize("spoil", SPOILT, ids=lambda spoil: spoil.__name__)
def test_a_shard_is_not_as_it_was_made(
    firm: Firm, shards: list[Path], spoil: Callable[[Path], None]
) -> None:
    [theme] = os.listdir(shards[0] / "shared")
    spoil(shards[0])
    told = SPOILT[spoil].format(theme=theme)
    assert refused(firm, *shards) == [told, AGAIN]


def test_a_manifest_behind_a_link_is_not_read(firm: Firm, shards: list[Path]) -> None:
    a_link_for_the_manifest(shards[0])
    assert refused(firm, *shards)[2:] == [f"1-of-2/manifest.json: {LINK}", AGAIN]


@pytest.mark.parametrize(
    ("kind", "what"), [("of_onlot", "onlot"), ("_of_libraries", "the libraries")]
)
def test_shards_were_made_by_another_version(
    firm: Firm,
    shards: list[Path],
    monkeypatch: pytest.MonkeyPatch,
    kind: str,
    what: str,
) -> None:
    by = f"This shard was made by another version of {what} than merges it."
    with monkeypatch.context() as patch:
        patch.setattr(stamps, kind, lambda: "another")
        told = refused(firm, *shards)
        assert told == [f"1-of-2: {by}", SAME, f"2-of-2: {by}", SAME]
        firm.shard(2, 2)  # now by another than the first
    assert refused(firm, *shards) == [f"2-of-2: {by}", SAME]


def made_from(kinds: str) -> str:
    return f"Its shard was made from something else than what lies here: {kinds}."


def test_what_lies_here_has_changed_since(firm: Firm, shards: list[Path]) -> None:
    firm.edit("elm", "11 in", "12 in")
    firm.place.photo_folder("fir").mkdir()
    (firm.place.photo_folder("fir") / "lid.jpg").write_bytes(b"x")
    assert refused(firm, *shards) == [
        f"inspections/elm.yaml: {made_from('the job file')}", SAME_INPUTS,
        f"inspections/fir.yaml: {made_from('its folder of photographs')}", SAME_INPUTS,
    ]  # fmt: skip


def test_links_come_from_another_secret(
    firm: Firm, shards: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("ONLOT_LINK_SECRET", f"{SECRET} but another")
    firm.shard(2, 2)
    assert refused(firm, *shards) == [
        f"inspections/elm.yaml: {made_from('its private link')}", SAME_SECRET,
        f"inspections/oak.yaml: {made_from('its private link')}", SAME_SECRET,
    ]  # fmt: skip


def test_a_link_was_renewed_since(firm: Firm, shards: list[Path]) -> None:
    assert firm.ask("renew", "ash").exit_code == 0
    told = f"inspections/ash.yaml: {made_from('its private link')}"
    assert refused(firm, *shards) == [told, SAME_SECRET]


def test_only_one_side_knows_of_a_job(firm: Firm, shards: list[Path]) -> None:
    firm.place.job_file("oak").unlink()
    write_small(firm.place, "yew", 9)
    unknown = "The job yew can be read here, and this shard knows nothing of it."
    strange = "This shard knows of the job oak, which nobody can read here."
    assert refused(firm, *shards) == [
        f"1-of-2: {unknown}", SAME_LOT, f"1-of-2: {strange}", SAME_LOT,
        f"2-of-2: {unknown}", SAME_LOT, f"2-of-2: {strange}", SAME_LOT,
    ]  # fmt: skip


def test_a_link_ended_between_the_days(firm: Firm) -> None:
    assert firm.ask("until", "ash", DAY).exit_code == 0
    shards = [firm.shard(1, 2), firm.shard(2, 2)]
    run = firm.ask("merge", "--on", "2026-11-02", *shards)
    assert run.exit_code == 1
    assert "This shard knows of the job ash, which nobody can read here." in run.output
    assert not firm.public.exists()
    assert firm.merge(*shards).exit_code == 0


def test_everything_is_told_at_once(firm: Firm, shards: list[Path]) -> None:
    one_byte(shards[0])
    a_link_for_the_themes(shards[0])
    firm.edit("oak", "11 in", "12 in")
    told = refused(firm, *shards, shards[1])
    assert told[::2] == [
        f"1-of-2/shared: {LINK}",
        f"1-of-2/{ASH}: {OTHER_SITE}",
        "2-of-2: This is share 2/2 once more; 2-of-2 is it too.",
        f"inspections/oak.yaml: {made_from('the job file')}",
    ]
    (firm.place.inspections / "firm.yaml").unlink()
    told = refused(firm, *shards)
    assert told[:4:2] == [f"1-of-2/shared: {LINK}", f"1-of-2/{ASH}: {OTHER_SITE}"]
    assert told[-2].startswith("inspections/firm.yaml: ")


def test_no_secret_is_made_to_merge(firm: Firm, shards: list[Path]) -> None:
    before = files(firm.root)
    out = firm.root.parent / "out"
    asked = firm.merge("--out", out, *shards, secret="")
    assert asked.exit_code == 1
    assert "The secret that links are made from is missing here." in asked.output
    assert files(firm.root) == before
    assert not out.exists()
