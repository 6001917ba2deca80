"""The list of published values itself: whole, used, and with what is left out.

These entries of the list that it was drawn from fit no formula of the results:

- mound sizes: the job file holds no basal area and no side slopes, and no mound is
  designed here;
- loading rates of one local ordinance of Minnesota by texture: no code pack carries
  that ordinance;
- flows seen at distribution boxes, service life of tanks, composition and dates of
  fiber pipe: context, no formula;
- hydrogen sulfide, methane, trenches, call before digging, confined spaces: cautions,
  words and no formula.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from published import ENTRIES, FILE, label

FIELDS = ["id", "what", "inputs", "expected", "tolerance", "source", "url", "seen"]
TESTS = "\n".join(
    path.read_text("utf-8")
    for path in sorted(Path(__file__).parent.glob("test_*.py"))
    if path.name != Path(__file__).name
)


@pytest.mark.parametrize("one", ENTRIES.values(), ids=label)
def test_an_entry_is_whole(one: dict[str, object]) -> None:
    assert list(one) == FIELDS
    assert isinstance(one["seen"], bool)
    assert one["source"]
    no_address = not one["seen"] or "maker" in str(one["source"])  # names a brand
    assert str(one["url"]).startswith("http") or no_address


@pytest.mark.parametrize("name", ENTRIES)
def test_an_entry_is_used(name: str) -> None:
    families = [f"{name[:end]}" for end in range(3, len(name))]
    assert f'"{name}"' in TESTS or any(
        f'starting("{prefix}")' in TESTS for prefix in families
    )


def test_the_file_names_no_entry_twice() -> None:
    assert FILE.read_text("utf-8").count("- id: ") == len(ENTRIES)
