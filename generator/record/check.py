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
from generator.record.listed import followed
from generator.record.one_line import in_two_ends, two_times
from generator.record.paths import joined, section, steps
from generator.record.read import Document
from generator.record.spelling import AmountError
from generator.record.wordings import (
    A_RANGE,
    Broken,
    form_of,
    like_one_line,
    nearest,
    shown,
    worded,
)
from generator.record.yaml_text import WIDTH, entry
from generator.shipped import shipped

YES_NO = ("yes", "no")  # they stand in so many lists that naming those helps nobody
LONGEST_TRIED = 2 * WIDTH  # characters; our choice, more never fit on one line
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
    problems += [_overfull(document, path, name) for path in document.overfull]
    return sorted(set(problems))


def _value(document: Document, parts: Iterable[str | int]) -> Any:
    """Give what stands at a path of the document."""
    found: Any = document.data
    for part in parts:
        found = found[part]
    return found


def _overfull(document: Document, path: str, name: str) -> Problem:
    """Tell of an entry on one line that has further keys below it."""
    parts = steps(path)
    known = group_at(parts, name)["properties"]
    found = _value(document, parts)
    whole = {key: value for key, value in found.items() if key in known}
    message = "An entry on one line takes no further keys below it."
    hint = f"Give each value its key: {', '.join(whole)}."
    flat = entry(whole, 0) if len(str(whole)) <= LONGEST_TRIED else []
    if len(flat) == 1:
        hint = f"Write it in full, as {flat[0][2:]}."
    return Problem(document.file, document.line(path), path, message, hint)


def _told(document: Document, error: Broken, name: str) -> Iterator[Problem]:
    path = joined(error.parts)
    if error.rule == "additionalProperties":
        yield from _unknown_keys(document, error, path, name)
        return
    if error.rule == "required":
        yield from _missing_keys(document, error, path, name)
        return
    if error.rule == "enum" and (turned := _turned_round(document, error, name)):
        yield turned
        return
    message, hint = worded(error)
    if error.rule == "enum":
        hint = f"{_other_list(error, name)} {hint}".strip()
    if error.rule == "format":
        hint = _stretch(document, error, name, message) or hint
    yield Problem(document.file, document.line(path), path, message, hint)


def group_at(parts: Iterable[str | int], name: str) -> dict[str, Any]:
    """Give the schema of what stands at a path."""
    group: dict[str, Any] = schema(name)
    for part in parts:
        whole = group.get("items") if isinstance(part, int) else None
        group = resolved(whole or group.get("properties", {}).get(part, {}), name)
    return group


def _other_list(error: Broken, name: str) -> str:
    """Name the keys of the same group in whose list a word stands."""
    if error.found in YES_NO:
        return ""
    others = group_at(error.parts[:-1], name).get("properties", {}).items()
    homes = [key for key, one in others if error.found in one.get("enum", ())]
    told = " or ".join(f'"{home}"' for home in homes)
    return f"It is in the list of {told}." if told else ""


def _turned_round(document: Document, error: Broken, name: str) -> Problem | None:
    """Find a "from" and a "to" that each stand in the list of the other."""
    if error.parts[-1] not in ("from", "to"):
        return None
    above = error.parts[:-1]
    whole, known = _value(document, above), group_at(above, name)["properties"]
    start, end = whole.get("from"), whole.get("to")
    starts, ends = (known.get(key, {}).get("enum", ()) for key in ("from", "to"))
    if start not in ends or end not in starts:
        return None
    path = joined(above)
    message = f'"{start}" and "{end}" stand the wrong way round.'
    hint = f'Turn the two round: from "{end}" to "{start}".'
    return Problem(document.file, document.line(path), path, message, hint)


def _stretch(document: Document, error: Broken, name: str, message: str) -> str:
    """Say how to write a range where a group of keys has room for both its ends."""
    above = error.parts[:-1]
    known = group_at(above, name).get("properties", {})
    key = str(error.parts[-1])
    found = str(error.found)
    ranged = message.endswith(A_RANGE) or two_times(found)
    if not ranged or "to" not in known or key == "to":
        return ""
    like = like_one_line(group_at(above, name))
    others = {at: one for at, one in _value(document, above).items() if at != key}
    return in_two_ends(found, key, others, like)


def _unknown_keys(
    document: Document, error: Broken, path: str, name: str
) -> Iterator[Problem]:
    known = error.schema["properties"]
    for key in error.found:
        if key in known:
            continue
        at = f"{path}.{key}" if path else key
        hint = _instead(key, error, name)
        message = f"The key {shown(key)} is not known here."
        yield Problem(document.file, document.line(at), at, message, hint)


def _instead(key: str, error: Broken, name: str) -> str:
    """Say what to write in place of a key that is not known."""
    known = error.schema["properties"]
    if hint := as_meant(key, known):
        return hint
    alone = len(error.found) == 1 and isinstance(error.found[key], str)
    near = nearest(key, known)
    if alone and not near and (form := form_of(error.schema)):
        return form
    hint = f"{near} {_belongs(key, name)}".strip()
    if not hint and error.found[key] is None:
        hint = "Put a text that has a comma in it between quotes."
    return hint or f"Known here: {', '.join(known)}."


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
    return followed(child, schema(name))


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
        later = section(path) not in NEVER_LATER
        line = document.line(path)
        yield Problem(document.file, line, at, message, hint, later=later)
