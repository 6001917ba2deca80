"""The demonstration jobs published as they are for clients, to look at every file."""

from __future__ import annotations

import re
import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest

from generator.pipeline import Order, build
from generator.record.load import Workspace
from generator.website.evidence_check import differences

ROOT = Path(__file__).resolve().parents[2]
LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
PRINTED = re.compile(r'<code class="address digest">([0-9a-f]{64})</code>')
TODAY = "2026-10-10"


@dataclass(frozen=True)
class Published:
    """The demonstration jobs, published in a place of their own."""

    root: Path
    sites: dict[str, Path]

    @property
    def shared(self) -> Path:
        return self.root / "public" / "shared"

    def differences(self, job: str = LARCH) -> list[str]:
        return differences(self.sites[job], self.shared)


def publish(root: Path) -> Published:
    place = Workspace(root)
    shutil.copytree(ROOT / "inspections", place.inspections)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("ONLOT_LINK_SECRET", "a secret for tests only, never a client's")
        order = Order(place.jobs(), root / "public", TODAY)
        first = build(place, order, lambda _: None)
    return Published(root, {job: page.parent for job, page in first.pages.items()})


def files_of(published: Published) -> dict[str, Path]:
    """Every file of one report and of the theme that it loads, as it is named."""
    site = published.sites[LARCH]
    own = {one.relative_to(site).as_posix(): one for one in site.rglob("*")}
    of_theme = {
        f"shared/{one.relative_to(published.shared).as_posix()}": one
        for one in published.shared.rglob("*")
    }
    return {name: one for name, one in (own | of_theme).items() if one.is_file()}
