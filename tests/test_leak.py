"""Nothing of one of fifty clients stands anywhere but in its own folder."""

from __future__ import annotations

import hashlib
import random
from dataclasses import dataclass
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner
from PIL import Image

from generator.cli import main
from generator.website.links import folder_name

CLIENTS = 50
SECRET = "a secret for tests only, never a client's"
BASE = "https://reports.onlot.example"
LETTERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True)
class Client:
    """One invented client: words that stand nowhere else, and its folder."""

    job: str
    words: tuple[str, ...]
    folder: str


def word(source: random.Random) -> str:
    return "".join(source.choices(LETTERS, k=12)).capitalize()


def write_client(inspections: Path, number: int) -> Client:
    """Write one job with a photograph, each of its texts a word of its own."""
    source = random.Random(f"client {number}")
    job = f"job-{word(source).lower()}"
    name, street, town, asks, title, saw, shows, note, who = (
        word(source) for _ in range(9)
    )
    phone = f"555-01{number:02}-{source.randrange(10**6):06}"
    data = {
        "visit": {"date": "2026-10-06", "inspector": "M. Example (invented)"},
        "client": {"name": name, "asks": f"{asks}? Ring {phone}."},
        "property": {"address": f"{number} {street} Lane", "place": town},
        "tanks": [
            {"name": "tank", "shape": "box", "length": "8 ft", "width": "4 ft 6 in",
             "liquid_depth": "48 in", "sludge": "11 in", "note": note}
        ],
        "photos": [{"file": "lid.jpg", "shows": shows}],
        "findings": [
            {"part": "tank", "weight": "repair", "title": title, "saw": saw,
             "do": "Mend it.", "who": who, "by": "today", "photo": "lid.jpg"}
        ],
        "not_seen": [{"what": "roof", "because": word(source)}],
    }  # fmt: skip
    (inspections / f"{job}.yaml").write_text(yaml.safe_dump(data), encoding="utf-8")
    (inspections / job).mkdir()
    picture = Image.frombytes("RGB", (96, 64), source.randbytes(96 * 64 * 3))
    picture.save(inspections / job / "lid.jpg", quality=90)
    words = (job, name, street, town, phone, asks, title, saw, shows, note, who)
    return Client(job, words, folder_name(SECRET.encode(), job, 1))


@pytest.fixture(scope="module")
def firm(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[Client]]:
    """Fifty clients, built and published; ten of them renewed, five withdrawn."""
    root = tmp_path_factory.mktemp("fifty")
    (root / "inspections").mkdir()
    (root / "inspections/firm.yaml").write_text(
        f"name: Example Onlot (invented)\nphone: 555-0100\nreports_at: {BASE}\n",
        encoding="utf-8",
    )
    clients = [write_client(root / "inspections", number) for number in range(CLIENTS)]
    changed = [one.job for one in clients[:15]]
    for commands in (
        [["build"]],
        [["renew", job] for job in changed[:10]],
        [["withdraw", job] for job in changed[10:]],
        [["build", *changed]],
    ):
        for words in commands:
            asked = ["--workspace", str(root), *words]
            done = CliRunner().invoke(main, asked, env={"ONLOT_LINK_SECRET": SECRET})
            assert done.exit_code == 0, done.output
    return root, clients


def owners(root: Path, clients: list[Client]) -> dict[str, Client]:
    """Give the client whom each folder with a report belongs to."""
    numbers = {one.job: 2 if at < 10 else 1 for at, one in enumerate(clients)}
    names = {
        folder_name(SECRET.encode(), one.job, numbers[one.job]): one
        for at, one in enumerate(clients)
        if not 10 <= at < 15
    }
    assert all((root / "public" / name / "record.html").exists() for name in names)
    return names


def test_no_word_of_one_client_in_any_file_of_another(
    firm: tuple[Path, list[Client]],
) -> None:
    root, clients = firm
    public = root / "public"
    names = owners(root, clients)
    links = {
        folder_name(SECRET.encode(), one.job, number): one
        for one in clients
        for number in (1, 2)
    }
    seen = 0
    for path in sorted(public.rglob("*")):
        if not path.is_file():
            continue
        place = path.relative_to(public)
        owner = names.get(place.parts[0])
        content = path.read_bytes().lower()
        for one in clients:
            if one is owner:
                continue
            found = [w for w in one.words if w.lower().encode() in content]
            assert not found, f"{place} holds {found} of {one.job}"
        others = [n for n, one in links.items() if one is not owner]
        assert not [n for n in others if n.encode() in content], place
        assert SECRET.encode() not in content
        seen += 1
    assert seen > CLIENTS * 10


def test_every_client_reads_the_own_words(firm: tuple[Path, list[Client]]) -> None:
    """Otherwise the test above would look for words that stand nowhere."""
    root, clients = firm
    for name, one in owners(root, clients).items():
        site = root / "public" / name
        text = "".join(page.read_text("utf-8") for page in site.glob("*.html"))
        assert [w for w in one.words if w not in text] == []


def test_no_photograph_of_one_client_with_another(
    firm: tuple[Path, list[Client]],
) -> None:
    root, _ = firm
    found: dict[str, str] = {}
    for picture in sorted((root / "public").rglob("*.jpg")):
        digest = hashlib.sha256(picture.read_bytes()).hexdigest()
        owner = picture.relative_to(root / "public").parts[0]
        assert found.setdefault(digest, owner) == owner
    assert len(set(found.values())) == CLIENTS - 5


def test_nothing_lists_the_clients(firm: tuple[Path, list[Client]]) -> None:
    root, _ = firm
    public = root / "public"
    at_top = {path.name for path in public.iterdir() if path.is_file()}
    assert at_top == {
        ".htaccess", ".onlot-published", "404.html", "_headers", "index.html",
        "robots.txt", "staticwebapp.config.json", "vercel.json",
    }  # fmt: skip
    endings = {path.suffix for path in public.rglob("*") if path.is_file()}
    assert not endings & {".yaml", ".yml", ".md", ".map", ".py", ".xml", ".gz"}
