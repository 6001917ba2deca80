"""How each broken rule of a schema is told to the person who typed the file."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from jsonschema.exceptions import ValidationError

from generator.record.autocorrect import as_meant
from generator.record.spelling import EXAMPLES, AmountError

NO_VALUE = "This has no value."
NEAR_ENOUGH = 0.6  # our choice; difflib's own default for a likely misspelling
PHOTO_ENDINGS = (".jpg", ".jpeg", ".png", ".webp")
LONGEST_SHOWN = 60  # characters of a found value that a problem repeats; our choice


@dataclass(frozen=True)
class Broken:
    """One rule of a schema that a value breaks: the rule, its limit, the value."""

    rule: str
    limit: Any
    found: Any
    schema: dict[str, Any]
    parts: tuple[str | int, ...]
    cause: BaseException | None

    @classmethod
    def of(cls, error: ValidationError) -> Broken:
        """Take over what the validator found."""
        schema: Any = error.schema
        return cls(
            rule=str(error.validator),
            limit=error.validator_value,
            found=error.instance,
            schema=schema if isinstance(schema, dict) else {},
            parts=tuple(error.absolute_path),
            cause=error.cause,
        )


def worded(error: Broken) -> tuple[str, str]:
    """Say what is wrong, and how to mend it."""
    return _WORDINGS.get(error.rule, _other)(error)


def nearest(key: str, known: Iterable[str]) -> str:
    """Ask for the listed word nearest to a misspelt one; empty if none is near."""
    short = key[:LONGEST_SHOWN].lower()
    near = difflib.get_close_matches(short, list(known), 1, NEAR_ENOUGH)
    return f'Did you mean "{near[0]}"?' if near else ""


def shown(found: Any) -> str:
    """Show a found value, cut where it is long."""
    if isinstance(found, dict):
        return "a group of keys"
    if isinstance(found, list):
        return "a list"
    text = " ".join(str(found).splitlines())
    cut = text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 1] + "…"
    return f'"{cut}"'


def _keys(found: Any) -> list[str]:
    """Give the keys of a group; of a text, the text itself."""
    return list(found) if isinstance(found, dict) else [str(found)]


def _example(error: Broken) -> str:
    examples = error.schema.get("examples", [])
    if examples and isinstance(examples[0], str | int):
        sign = '"' * isinstance(examples[0], str)
        return f"Write it like {sign}{examples[0]}{sign}."
    return str(error.schema.get("description", ""))


def _type(error: Broken) -> tuple[str, str]:
    found, wanted = error.found, error.limit
    if found is None:
        remark = f'{_example(error)} Behind " #" stands only a remark.'
        return NO_VALUE, _BELOW.get(str(wanted)) or remark
    if wanted == "string":
        kind = error.schema.get("format")
        if isinstance(found, int) and kind in EXAMPLES:
            why = _BARE.get(kind, "has no unit.")
            return f'"{found}" {why}', f"Write it as {EXAMPLES[kind]}."
        if isinstance(found, int):
            return f'"{found}" is a bare number.', f'Put it between quotes: "{found}".'
        return f"A text is needed, and this is {shown(found)}.", _example(error)
    if wanted == "integer":
        if isinstance(found, str) and _QUOTED_NUMBER.fullmatch(found):
            return (
                f"{shown(found)} is a number between quotes.",
                "Leave the quotes out.",
            )
        if isinstance(found, dict | list):
            message = f"A whole number is needed here, and this is {shown(found)}."
            return message, _example(error)
        return f"{shown(found)} is not a whole number.", _example(error)
    if wanted == "array":
        message = f"A list is needed here, and this is {shown(found)}."
        bulleted = [hint for key in _keys(found) if (hint := as_meant(key, ()))]
        empty = " Or take the key out." if isinstance(found, str) else ""
        return message, bulleted[0] if bulleted else _BELOW["array"] + empty
    message = f"A group of keys is needed here, and this is {shown(found)}."
    return message, f"Known here: {', '.join(error.schema.get('properties', {}))}."


_BARE = {
    "day": "can be read in more than one way.",
    "clock": "is not a time of day that can be read.",
    "bucket": "is not a bucket check that can be read.",
}
_QUOTED_NUMBER = re.compile(
    r"0|[1-9]\d*", re.ASCII
)  # unquoted, it were a number by now
_BELOW = {
    "array": 'Write its lines below it, each beginning with "- ".',
    "object": "Write its keys on the lines below it, each indented by two spaces.",
}


def _pattern(error: Broken) -> tuple[str, str]:
    name, hint = str(error.found), str(error.schema.get("description", ""))
    if error.schema.get("title") != "Photograph":
        return f"{shown(name)} has a character that cannot stand here.", (
            f"{hint} {_example(error)}"
        )
    if "/" in name or "\\" in name:
        message = f"{shown(name)} is a path, and only a file name can stand here."
        return message, "Copy the picture into the folder named like the job file."
    if not name.lower().endswith(PHOTO_ENDINGS):
        message = f"{shown(name)} does not end like a photograph."
        return message, f"The endings: {', '.join(PHOTO_ENDINGS)}."
    return f"{shown(name)} has a character that a photograph's name cannot have.", (
        "Rename the file with letters, digits, dots, dashes and underscores."
    )


def _enum(error: Broken) -> tuple[str, str]:
    listed = ", ".join(str(value) for value in error.limit)
    found = error.found
    if found is None:
        return NO_VALUE, f"Write one of: {listed}."
    if isinstance(found, dict | list):
        message = f"One entry of a list is needed, and this is {shown(found)}."
        return message, f"Write one of: {listed}."
    near = nearest(str(found), [str(value) for value in error.limit])
    message = f"{shown(found)} is not in the list."
    return message, f"{near} The list: {listed}.".strip()


def _format(error: Broken) -> tuple[str, str]:
    cause = error.cause
    if isinstance(cause, AmountError):
        return " ".join(cause.message.split()), cause.hint
    return f"{shown(error.found)} cannot be read.", _example(error)


def _other(error: Broken) -> tuple[str, str]:
    return f"{shown(error.found)} does not fit here.", _example(error)


_WORDINGS: dict[str, Callable[[Broken], tuple[str, str]]] = {
    "type": _type,
    "enum": _enum,
    "format": _format,
    "minLength": lambda error: (NO_VALUE, _example(error)),
    "maxLength": lambda error: (
        f"This text has {len(error.found)} characters; {error.limit} are the most.",
        "Say it shorter.",
    ),
    "minimum": lambda error: (
        f"{error.found} is too small; {error.limit} is the least.",
        "Check the number.",
    ),
    "maximum": lambda error: (
        f"{error.found} is too large; {error.limit} is the most.",
        "Check the number.",
    ),
    "minItems": lambda error: ("This list is empty.", "Add a line or take it out."),
    "maxItems": lambda error: (
        f"This list has {len(error.found)} lines; {error.limit} are the most.",
        "Split the job.",
    ),
    "pattern": _pattern,
}
