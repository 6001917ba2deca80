"""Listed values typed with other capitals, as a phone types them, taken as listed."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from typing import Any

from generator.record.read import Document


def as_listed(text: str, values: Collection[Any]) -> str | None:
    """Give the one listed value that a text is, capitals and spaces aside.

    Parameters
    ----------
    text : str
        What was typed.
    values : collection
        The listed values.

    Returns
    -------
    str or None
        The listed value; None where no value is that text, or more than one.

    Examples
    --------
    >>> as_listed("No  Digging", ["marked", "no digging"])
    'no digging'
    """
    if text in values:
        return text
    wanted = _plain(text)
    same = [one for one in values if isinstance(one, str) and _plain(one) == wanted]
    return same[0] if len(same) == 1 else None


def listed(document: Document, schema: dict[str, Any]) -> Document:
    """Take every listed value of a document as it stands in its list.

    Parameters
    ----------
    document : Document
        A document whose readings have been written out.
    schema : dict
        The schema of the file, in its checked form.

    Returns
    -------
    Document
        The same document, its lines kept.
    """
    return replace(document, data=_taken(document.data, schema, schema))


def _taken(found: Any, node: dict[str, Any], whole: dict[str, Any]) -> Any:
    node = followed(node, whole)
    if isinstance(found, str) and "enum" in node:
        value = as_listed(found, node["enum"])
        return found if value is None else value
    if isinstance(found, list) and "items" in node:
        return [_taken(one, node["items"], whole) for one in found]
    if isinstance(found, dict) and "properties" in node:
        known = node["properties"]
        return {
            key: _taken(one, known[key], whole) if key in known else one
            for key, one in found.items()
        }
    return found


def followed(node: dict[str, Any], whole: dict[str, Any]) -> dict[str, Any]:
    """Follow a reference into the definitions of a schema; others stay as they are."""
    if "$ref" not in node:
        return node
    found = whole
    for step in node["$ref"].removeprefix("#/").split("/"):
        found = found[step]
    return found


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())
