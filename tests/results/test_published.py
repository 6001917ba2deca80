"""The list of published values itself: whole, used, and with what is left out.

These entries of the list that it was drawn from fit no formula of the results yet:

- two-day load test and design volume by bedrooms: the test here is a same-visit one;
- least slopes of drains, older and makers' roughness, brick: the tables here hold one
  value a material, and no drain slope is judged;
- slopes in percent and inverts below a cover: units belong to the record, and levels
  are taken against the outlet;
- positions from ties, and their error ellipses: nothing is located yet;
- end gauge of the GUM and the two-sided probability of JCGM 106: there is no thermal
  correction and no conformance probability here, only the guard band;
- the rest of the pump tank (block, reserve), drawdown procedure: no pumps yet;
- percolation, trench, bed and mound sizes, distribution boxes: no field is sized;
- gases, trenches, call before digging, fiber pipe, tank life: words, not formulas.
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
    assert str(one["url"]).startswith("http") or not one["seen"]


@pytest.mark.parametrize("name", ENTRIES)
def test_an_entry_is_used(name: str) -> None:
    families = [f"{name[:end]}" for end in range(3, len(name))]
    assert f'"{name}"' in TESTS or any(
        f'starting("{prefix}")' in TESTS for prefix in families
    )


def test_the_file_names_no_entry_twice() -> None:
    assert FILE.read_text("utf-8").count("- id: ") == len(ENTRIES)
