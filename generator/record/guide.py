"""The field guide of the job file, written from the schema alone."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from generator.record.check import resolved, schema
from generator.record.spelling import EXAMPLES, KINDS

SCHEMA = "inspection"
_HEAD = """\
# Field guide

Every key of a job file. A key marked *required* must stand wherever its group does.
`[]` stands for each entry of a list. Amounts carry their unit as typed text.
"""


def guide() -> str:
    """Write the field guide as Markdown.

    Returns
    -------
    str
        One heading for each key, in the order of the schema.

    Examples
    --------
    >>> guide().startswith("# Field guide")
    True
    """
    return "\n".join((_HEAD, *_keys(schema(SCHEMA), "", 2)))


def _keys(node: dict[str, Any], path: str, rank: int) -> Iterator[str]:
    required = node.get("required", ())
    for key, child in node.get("properties", {}).items():
        child = resolved(child, SCHEMA)
        at = f"{path}.{key}" if path else key
        yield _entry(at, child, required=key in required, rank=rank)
        inner = resolved(child.get("items", child), SCHEMA)
        below = f"{at}[]" if "items" in child else at
        yield from _keys(inner, below, rank + 1)


def _entry(at: str, child: dict[str, Any], *, required: bool, rank: int) -> str:
    lines = [
        f"{'#' * rank} `{at}`",
        "",
        f"**{child['title']}**{' (required)' if required else ''}. "
        f"{child['description']}",
        "",
        f"- Kind: {_kind(child)}",
    ]
    example = child["examples"][0]
    if isinstance(example, str | int):
        lines.append(f"- Example: `{at.rpartition('.')[2]}: {example}`")
    elif not child.get("properties") and "properties" not in child.get("items", {}):
        flat = json.dumps(example, ensure_ascii=False)
        lines.append(f"- Example: `{at.rpartition('.')[2]}: {flat}`")
    return "\n".join((*lines, ""))


def _kind(child: dict[str, Any]) -> str:
    if "enum" in child:
        return "one of " + ", ".join(f"`{value}`" for value in child["enum"])
    if child["type"] == "array":
        item = resolved(child["items"], SCHEMA)
        return "a list of " + _kind(item).removeprefix("a ")
    if child["type"] == "object":
        return "a group of keys"
    if child["type"] == "integer":
        return f"a whole number from {child['minimum']} to {child['maximum']}"
    if "format" in child:
        kind = child["format"]
        return f"a {KINDS[kind]}, such as {EXAMPLES[kind]}"
    if "maxLength" in child:
        return f"a text of at most {child['maxLength']} characters"
    return "a word of small letters, digits and dashes"
