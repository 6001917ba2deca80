"""The docstring of a formula is its engineering record: whole, sourced and runnable."""

from __future__ import annotations

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable
from types import ModuleType
from typing import Any

import pytest

import generator
from generator import results
from generator.sources import SOURCES

# These gather, name and list what the formulas give; they hold no formula themselves.
PLUMBING = re.compile(r".*_results?$")
PLUMBING_NAMES = {
    "called",
    "capacity_row",
    "comparisons_of",
    "compute",
    "contents_of",
    "depth_sums",
    "design_flow",
    "design_gallons",
    "disagreements",
    "distance_items",
    "distance_sums",
    "feature_shapes",
    "held",
    "hose_sums",
    "household_flow",
    "inside_of",
    "inside_paths",
    "locate",
    "look",
    "look_beyond",
    "misfits",
    "name_of_all",
    "numbered",
    "pair_name",
    "pairs_of",
    "part_paths",
    "part_shapes",
    "parts_beyond",
    "parts_of",
    "parts_of_lot",
    "plan_pairs_of",
    "refusals",
    "rows_of",
    "running",
    "since_pumped",
    "solids_bars",
    "speaking",
    "spoken_of",
    "sum_assumption",
    "take",
    "tested_tank",
    "unmeasured",
    "work_out",
    "work_out_two_days",
}
# Of result.py and rounding.py: they take a number apart or write it out.
FORMATTING = {"figures", "nominal", "said", "standard", "written"}
NUMBER = re.compile(r"\b(float|int|Number|UFloat|Running|Balance|Section|Recovery)\b")
UNIT = re.compile(r"\[[^\]\n]+\]")
KEY = re.compile(r"\[([A-Z][\w-]+)\]")
SECTION = re.compile(r"^(\w[\w ]*)\n-+\n(.*?)(?=^\w[\w ]*\n-+\n|\Z)", re.M | re.S)
ITEM = re.compile(r"^(\S[^\n]*)\n((?:[ ]+[^\n]*\n?|\n)*)", re.M)
NO_SOURCE = "common practice, no source"


def named(package: ModuleType) -> list[str]:
    """Name a package and every module under it."""
    found = pkgutil.walk_packages(package.__path__, f"{package.__name__}.")
    return [package.__name__, *(one.name for one in found)]


def modules() -> list[ModuleType]:
    """List the modules of the results."""
    return [importlib.import_module(name) for name in named(results)]


def formulas() -> list[Any]:
    """List the public functions of the results that hold a formula."""
    return [
        pytest.param(function, id=f"{module.__name__.rpartition('.')[2]}.{name}")
        for module in modules()
        for name, function in vars(module).items()
        if inspect.isfunction(function)
        and function.__module__ == module.__name__
        and not name.startswith("_")
        and not PLUMBING.match(name)
        and name not in PLUMBING_NAMES | FORMATTING
    ]


def sections(function: Callable[..., Any]) -> dict[str, str]:
    """Split a docstring by its underlined headings."""
    return dict(SECTION.findall(inspect.getdoc(function) or ""))


@pytest.mark.parametrize("function", formulas())
def test_parameters_match_the_signature(function: Callable[..., Any]) -> None:
    items = ITEM.findall(sections(function)["Parameters"])
    named = [name for head, _ in items for name in head.split(" : ")[0].split(", ")]
    assert named == list(inspect.signature(function).parameters)


@pytest.mark.parametrize("function", formulas())
@pytest.mark.parametrize("part", ["Parameters", "Returns"])
def test_every_number_has_a_unit(function: Callable[..., Any], part: str) -> None:
    for head, body in ITEM.findall(sections(function)[part]):
        kind = head.split(" : ")[-1]
        assert body.strip(), head
        if NUMBER.search(kind):
            assert UNIT.search(body), head


@pytest.mark.parametrize("function", formulas())
def test_a_source_is_named_and_known(function: Callable[..., Any]) -> None:
    notes = " ".join(sections(function)["Notes"].split())
    keys = KEY.findall(notes)
    unknown = [key for key in keys if key not in SOURCES]
    assert not unknown
    stated = re.search(r"\bsources?: ", notes, re.I) and keys
    assert stated or NO_SOURCE in notes.lower()


@pytest.mark.parametrize("function", formulas())
def test_the_example_runs(function: Callable[..., Any]) -> None:
    assert ">>> " in sections(function)["Examples"]
    module = inspect.getmodule(function)
    finder = doctest.DocTestFinder(recurse=False)
    said: list[str] = []
    for test in finder.find(function, function.__name__, module=module):
        doctest.DocTestRunner().run(test, out=said.append)
    assert not "".join(said)


@pytest.mark.parametrize("name", named(generator))
def test_doctests(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def test_the_exclusions_are_all_needed() -> None:
    names = {
        name
        for module in modules()
        for name, one in vars(module).items()
        if inspect.isfunction(one) and one.__module__ == module.__name__
    }
    assert names >= PLUMBING_NAMES | FORMATTING
