"""Schemas, dataclasses and the field guide say the same of every key."""

from __future__ import annotations

import dataclasses
import json
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args, get_origin

import pytest
from jsonschema import Draft202012Validator

from generator.codes.packs import Pack
from generator.problems import Problem
from generator.record.build import fields
from generator.record.check import check, key_paths, resolved, schema
from generator.record.guide import guide
from generator.record.model import Firm, Inspection
from generator.record.node import Node
from generator.record.read import Document, read
from generator.record.spelling import KINDS

NAMES = ("inspection", "firm", "code")
ROOTS: dict[str, type[Node]] = {"inspection": Inspection, "firm": Firm, "code": Pack}
GOLDEN = Path(__file__).parent.parent.parent / "schemas" / "field-guide.md"


def keys(name: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Walk over every key of a schema, and over the entries of its lists."""

    def walk(node: dict[str, Any], path: str) -> Iterator[tuple[str, dict[str, Any]]]:
        for key, child in node.get("properties", {}).items():
            below = resolved(child, name)
            at = f"{path}.{key}" if path else key
            yield at, below
            yield from walk(below, at)
        if "items" in node:
            item = resolved(node["items"], name)
            yield f"{path}[]", item
            yield from walk(item, f"{path}[]")

    return walk(schema(name), "")


EVERY_KEY = [(name, at, node) for name in NAMES for at, node in keys(name)]
KEY_IDS = [f"{name}-{at}" for name, at, _ in EVERY_KEY]


@pytest.mark.parametrize("name", NAMES)
def test_valid_against_the_metaschema(name: str) -> None:
    assert schema(name)["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    Draft202012Validator.check_schema(schema(name))
    assert schema(name)["title"]
    assert schema(name)["description"].endswith(".")


def as_it_stands(name: str) -> dict[str, Any]:
    """Load a schema as an editor reads it, with both forms of an entry."""
    path = Path(__file__).parents[2] / "schemas" / f"{name}.schema.json"
    found: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return found


@pytest.mark.parametrize("name", NAMES)
def test_the_file_is_valid_against_the_metaschema(name: str) -> None:
    Draft202012Validator.check_schema(as_it_stands(name))


def test_an_editor_takes_an_entry_in_both_forms() -> None:
    whole = as_it_stands("inspection")
    both: list[dict[str, Any]] = []

    def walk(node: Any) -> None:
        if isinstance(node, dict):
            if "anyOf" in node:
                both.append(node)
            node = list(node.values())
        for one in node if isinstance(node, list) else ():
            walk(one)

    walk(whole)
    assert len(both) >= 10
    for node in both:
        validator = Draft202012Validator({**node, "$defs": whole["$defs"]})
        for form in node["anyOf"]:
            assert all(validator.is_valid(one) for one in form["examples"])
        assert not validator.is_valid({"a": 1, "b": 2})


@pytest.mark.parametrize("job", ["demo-larch-hollow", "demo-cattail-lake"])
def test_an_editor_takes_the_demonstrations(job: str) -> None:
    path = Path(__file__).parents[2] / "inspections" / f"{job}.yaml"
    validator = Draft202012Validator(as_it_stands("inspection"))
    assert list(validator.iter_errors(read(path).data)) == []


@pytest.mark.parametrize(("name", "at", "node"), EVERY_KEY, ids=KEY_IDS)
def test_every_key_explains_itself(name: str, at: str, node: dict[str, Any]) -> None:
    is_entry = at.endswith("[]")
    assert node["title"]
    assert node["description"].endswith((".", "?")), at
    assert "examples" in node or (is_entry and node["type"] == "object")
    if node.get("type") == "object":
        assert node["additionalProperties"] is False
    if "format" in node:
        assert node["format"] in KINDS


def problems_of_example(name: str, at: str, example: Any) -> list[Problem]:
    """Put an example at its place and hold it against the whole schema."""
    data: Any = example
    for part in reversed(at.replace("[]", ".[]").split(".")):
        data = [data] if part == "[]" else {part: data}
    place = at.replace("[]", "[0]")
    return [
        problem
        for problem in check(Document("example", data, {}), name)
        if problem.field.startswith(place)
        and not problem.field[len(place) :][:1].isalpha()
    ]


@pytest.mark.parametrize(("name", "at", "node"), EVERY_KEY, ids=KEY_IDS)
def test_every_example_passes(name: str, at: str, node: dict[str, Any]) -> None:
    for example in node.get("examples", ()):
        assert problems_of_example(name, at, example) == []


def test_a_wrong_example_would_be_seen() -> None:
    assert problems_of_example("inspection", "tanks[].sludge", "8")
    assert problems_of_example("inspection", "visit", {"date": "2026-10-06"})


def groups(kind: type[Node], node: dict[str, Any], at: str, name: str) -> Iterator[Any]:
    """Pair every dataclass with the group of keys that it mirrors."""
    yield at, kind, node
    for key, hint in fields(kind).values():  # type: ignore[arg-type]
        inner = get_args(hint)[0] if get_origin(hint) is tuple else hint
        child = resolved(node["properties"].get(key, {}), name)
        if isinstance(inner, type) and issubclass(inner, Node):
            below = resolved(child.get("items", child), name)
            yield from groups(inner, below, f"{at}.{key}".strip("."), name)


EVERY_GROUP = [
    (name, *group)
    for name in NAMES
    for group in groups(ROOTS[name], schema(name), "", name)
]


@pytest.mark.parametrize(
    ("name", "at", "kind", "node"),
    EVERY_GROUP,
    ids=[f"{name}-{at or 'all'}" for name, at, *_ in EVERY_GROUP],
)
def test_dataclasses_have_the_keys_of_the_schema(
    name: str, at: str, kind: type[Node], node: dict[str, Any]
) -> None:
    found = fields(kind)  # type: ignore[arg-type]
    assert {key for key, _ in found.values()} == set(node["properties"])
    needed = {
        found[field.name][0]
        for field in dataclasses.fields(kind)
        if field.name != "at" and field.default is dataclasses.MISSING
    }
    assert needed == set(node.get("required", ()))


@pytest.mark.parametrize(
    ("name", "at", "kind", "node"),
    EVERY_GROUP,
    ids=[f"{name}-{at or 'all'}" for name, at, *_ in EVERY_GROUP],
)
def test_types_of_the_dataclass_fit_the_schema(
    name: str, at: str, kind: type[Node], node: dict[str, Any]
) -> None:
    for key, hint in fields(kind).values():  # type: ignore[arg-type]
        child = resolved(node["properties"][key], name)
        if get_origin(hint) is tuple:
            assert child["type"] == "array"
            hint, child = get_args(hint)[0], resolved(child["items"], name)
        wanted = TYPES.get(child.get("format", ""), "")
        if issubclass(hint, Node):
            assert child["type"] == "object"
        elif hint in (str, int):
            assert "format" not in child
            assert (child.get("type") == "integer") == (hint is int)
        else:
            assert hint.__name__ == wanted, f"{at}.{key}"


TYPES = {
    "length": "Length",
    "volume": "Volume",
    "duration": "Duration",
    "flow": "Flow",
    "slope": "Slope",
    "level": "Level",
    "bucket": "TimedVolume",
    "clock": "Clock",
    "moment": "Clock",
    "reading": "Level",
    "day": "Day",
    "angle": "Angle",
    "share": "Share",
    "number": "Number",
    "percolation": "Percolation",
    "loading": "Loading",
    "tie": "Tie",
    "target": "Target",
}


def test_the_field_guide_is_the_one_set_down() -> None:
    if os.environ.get("ONLOT_REFRESH") == "1":
        GOLDEN.write_text(guide(), encoding="utf-8")
    assert guide() == GOLDEN.read_text(encoding="utf-8")


def test_the_field_guide_names_every_key_once() -> None:
    headings = [line for line in guide().splitlines() if line.startswith("##")]
    headings = [heading for heading in headings if "`" in heading]
    named = [heading.split("`")[1] for heading in headings]
    assert len(named) == len(set(named))
    assert set(named) == set(key_paths("inspection"))


def test_the_editor_line_of_each_job_names_a_schema() -> None:
    top = Path(__file__).parent.parent.parent
    for job in sorted((top / "inspections").glob("*.yaml")):
        first = job.read_text(encoding="utf-8").splitlines()[0]
        named = (job.parent / first.partition("$schema=")[2]).resolve()
        assert json.loads(named.read_text(encoding="utf-8"))["title"]
