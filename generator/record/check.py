"""A file against its schema: every mistake at once, in plain sentences."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from typing import Any

from jsonschema import Draft202012Validator, FormatChecker, ValidationError
from jsonschema.validators import extend

from generator.problems import Problem
from generator.record.amounts import READERS
from generator.record.autocorrect import as_meant
from generator.record.read import Document
from generator.record.spelling import AmountError
from generator.record.wordings import Broken, nearest, shown, worded
from generator.shipped import shipped

NEVER_LATER = ("", "visit", "client", "property", "photos", "overrides", "reports")


@lru_cache
def schema(name: str) -> dict[str, Any]:
    """Load the schema ``inspection``, ``firm`` or ``code``, as a check uses it.

    Where an entry of a list may stand on one line, the file offers two forms; here only
    the long form is left, with the other under ``one_line``, since every such line has
    been written out by then.
    """
    path = shipped(f"schemas/{name}.schema.json")
    loaded: dict[str, Any] = json.loads(
        path.read_text(encoding="utf-8"), object_hook=_long_form
    )
    return loaded


def _long_form(node: dict[str, Any]) -> dict[str, Any]:
    if "anyOf" not in node:
        return node
    long, short = node["anyOf"]
    return {**long, "one_line": short}


@lru_cache
def _validator(name: str) -> Draft202012Validator:
    formats = FormatChecker(formats=())
    for kind, reader in READERS.items():
        formats.checks(kind, raises=AmountError)(_only_text(reader))
    strict = extend(  # type: ignore[no-untyped-call]  # the library leaves it untyped
        Draft202012Validator, {"pattern": _pattern}
    )
    validator: Draft202012Validator = strict(schema(name), format_checker=formats)
    return validator


def _pattern(
    _: Any, pattern: str, found: Any, __: dict[str, Any]
) -> Iterator[ValidationError]:
    """Hold a text against a pattern to its very end, a last line break included."""
    whole = f"{pattern[:-1]}\\Z" if pattern.endswith("$") else pattern
    if isinstance(found, str) and not re.search(whole, found):
        yield ValidationError("does not match")


def _only_text(reader: Callable[[str], Any]) -> Callable[[Any], bool]:
    def fits(found: Any) -> bool:
        if isinstance(found, str):
            reader(found)
        return True

    return fits


def check(document: Document, name: str) -> list[Problem]:
    """Hold a document against its schema.

    Parameters
    ----------
    document : Document
        What the reader made of the file.
    name : str
        Name of the schema: ``inspection``, ``firm`` or ``code``.

    Returns
    -------
    list of Problem
        Every mistake, in the order of the file.
    """
    problems = [
        problem
        for error in _validator(name).iter_errors(document.data)
        for problem in _told(document, Broken.of(error), name)
    ]
    return sorted(set(problems))


def _path(parts: Iterable[str | int]) -> str:
    path = ""
    for part in parts:
        path += f"[{part}]" if isinstance(part, int) else f".{part}"
    return path.removeprefix(".")


def _told(document: Document, error: Broken, name: str) -> Iterator[Problem]:
    path = _path(error.parts)
    if error.rule == "additionalProperties":
        yield from _unknown_keys(document, error, path, name)
        return
    if error.rule == "required":
        yield from _missing_keys(document, error, path, name)
        return
    message, hint = worded(error)
    if error.rule == "enum":
        hint = f"{_other_list(error, name)} {hint}".strip()
    yield Problem(document.file, document.line(path), path, message, hint)


def _other_list(error: Broken, name: str) -> str:
    """Name the keys of the same group in whose list a word stands."""
    group: dict[str, Any] = schema(name)
    for part in error.parts[:-1]:
        whole = group.get("items") if isinstance(part, int) else None
        group = resolved(whole or group.get("properties", {}).get(part, {}), name)
    others = group.get("properties", {}).items()
    homes = [key for key, one in others if error.found in one.get("enum", ())]
    told = " or ".join(f'"{home}"' for home in homes)
    return f"It is in the list of {told}." if told else ""


def _unknown_keys(
    document: Document, error: Broken, path: str, name: str
) -> Iterator[Problem]:
    known = error.schema["properties"]
    for key in error.found:
        if key in known:
            continue
        at = f"{path}.{key}" if path else key
        hint = as_meant(key, known)
        hint = hint or f"{nearest(key, known)} {_belongs(key, name)}".strip()
        if not hint and error.found[key] is None:
            hint = "Put a text that has a comma in it between quotes."
        hint = hint or f"Known here: {', '.join(known)}."
        message = f"The key {shown(key)} is not known here."
        yield Problem(document.file, document.line(at), at, message, hint)


def _belongs(key: str, name: str) -> str:
    homes = [path for path in key_paths(name) if path.rpartition(".")[2] == key]
    if key in homes:
        return "It belongs at the left margin, in no section."
    named = [home.rpartition(".")[0].replace("[]", "") for home in homes]
    told = " or ".join(f'"{home}"' for home in dict.fromkeys(named))
    return f"It belongs in {told}." if told else ""


@lru_cache
def key_paths(name: str) -> tuple[str, ...]:
    """List the path of every key in a schema, such as ``tanks[].sludge``."""

    def walk(node: dict[str, Any], path: str) -> Iterator[str]:
        for key, child in node.get("properties", {}).items():
            below = f"{path}.{key}" if path else key
            yield below
            yield from walk(resolved(child, name), below)
        if "items" in node:
            yield from walk(resolved(node["items"], name), f"{path}[]")

    return tuple(walk(schema(name), ""))


def resolved(child: dict[str, Any], name: str) -> dict[str, Any]:
    """Follow a reference into the definitions of a schema; others stay as they are."""
    pointer = child.get("$ref")
    if pointer is None:
        return child
    found: dict[str, Any] = schema(name)
    for step in pointer.removeprefix("#/").split("/"):
        found = found[step]
    return found


def _missing_keys(
    document: Document, error: Broken, path: str, name: str
) -> Iterator[Problem]:
    for key in error.limit:
        if key in error.found or any(as_meant(one, (key,)) for one in error.found):
            continue
        child = resolved(error.schema["properties"][key], name)
        example = child.get("examples", [""])[0]
        hint = child["description"]
        if isinstance(example, str | int):
            hint += f' For example "{key}: {str(example).rstrip(".")}".'
        else:
            hint += f' Begin it with a line "{key}:".'
        at = f"{path}.{key}" if path else key
        message = f'"{key}" is missing here.'
        later = path.partition("[")[0].partition(".")[0] not in NEVER_LATER
        line = document.line(path)
        yield Problem(document.file, line, at, message, hint, later=later)
