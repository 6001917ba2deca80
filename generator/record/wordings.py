"""How each broken rule of a schema is told to the person who typed the file."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from jsonschema.exceptions import ValidationError

from generator.record.also_called import known_as
from generator.record.autocorrect import as_meant, spaced
from generator.record.spelling import EXAMPLES, AmountError
from generator.record.yaml_text import entry

NO_VALUE = "This has no value."
NEAR_ENOUGH = 0.6  # our choice; difflib's own default for a likely misspelling
NEARLY_SAME = 0.8  # our choice; one or two letters of a word are wrong
A_RANGE = "is a range."
PHOTO_ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif")
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
    """Ask for the listed word that was meant by another; empty if none is near.

    First comes what the trade calls it, then the same word misspelt, then a longer
    word that holds it, then what is a little like it.

    Examples
    --------
    >>> nearest("depth", ["width", "liquid_depth"])
    'Did you mean "liquid_depth"?'
    >>> nearest("pacing", ["plan", "paced"])
    'Did you mean "paced"?'
    """
    words = list(known)
    near = (
        known_as(key[:LONGEST_SHOWN], words)
        or close(key, words, NEARLY_SAME)
        or _longer(key, words)
        or close(key, words)
    )
    return f'Did you mean "{near}"?' if near else ""


def close(key: str, known: Iterable[str], enough: float = NEAR_ENOUGH) -> str:
    """Give the listed word whose letters are nearest; empty if none is near enough."""
    short = key[:LONGEST_SHOWN].lower()
    near = difflib.get_close_matches(short, list(known), 1, enough)
    return near[0] if near else ""


def _longer(key: str, known: list[str]) -> str:
    """Give the shortest listed word that holds another as one of its own words."""
    holding = [one for one in known if key.lower() in re.split(r"[ _-]", one)]
    return min(holding, key=len, default="")


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
        return message, _as_a_list(error)
    message = f"A group of keys is needed here, and this is {shown(found)}."
    return message, _as_a_group(error)


def _as_a_list(error: Broken) -> str:
    """Say how to make a list of what was typed in its place."""
    found, items = error.found, error.schema.get("items", {})
    bulleted = [hint for key in _keys(found) if (hint := as_meant(key, ()))]
    if bulleted:
        return bulleted[0]
    if not isinstance(found, str):
        return _BELOW["array"]
    short = len(found) <= LONGEST_SHOWN and found.lower() not in _NOTHING
    if short and items.get("type") == "string" and _BRACKETED.fullmatch(found):
        return f"Put it between square brackets: [{found}]."
    return f"{_BELOW['array']} Or take the key out."


def _as_a_group(error: Broken) -> str:
    """Say how to write a group of keys: on one line, or with the key that was meant."""
    found, known = error.found, error.schema.get("properties", {})
    word = (
        re.split(r"[\s:;=]", found.strip(), maxsplit=1)
        if isinstance(found, str)
        else []
    )
    if len(word) > 1 and word[0] in known:
        return f"It needs a colon and a space. {spaced(found)}"
    if line := like_one_line(error.schema):
        named = f", or {{name: {found}}}" if _is_a_name(found, known) else ""
        return f'Write it like "{line}"{named}.'
    if _is_a_name(found, known) and "name" in error.schema.get("required", ()):
        return f'Write its keys, the first of them "name: {found}".'
    form = form_of(error.schema) if isinstance(error.parts[-1], int) else ""
    return form or f"Known here: {', '.join(known)}."


def _is_a_name(found: Any, known: dict[str, Any]) -> bool:
    if not isinstance(found, str) or len(found) > LONGEST_SHOWN:
        return False
    return "name" in known and _NAME.fullmatch(found) is not None


def like_one_line(schema: dict[str, Any]) -> str:
    """Give the example of an entry that may stand on one line; empty if none may."""
    for example in schema.get("one_line", {}).get("examples", ()):
        return ", ".join(f"{key}: {value}" for key, value in example.items())
    return ""


def form_of(group: dict[str, Any]) -> str:
    """Show how an entry of a list is written; empty where there is no example."""
    if line := like_one_line(group):
        return f'Write it like "{line}".'
    examples = group.get("examples", ())
    if not examples or "required" not in group:
        return ""
    flat = entry(examples[0], 0)
    if len(flat) == 1:
        return f"Write it like {flat[0][2:]}."
    first, *further = group["required"]
    begun = f"{first}: {examples[0][first]}"
    return f'Begin it like "- {begun}"; below that go {", ".join(further)}.'


_BARE = {
    "day": "can be read in more than one way.",
    "clock": "is not a time of day that can be read.",
    "bucket": "is not a bucket check that can be read.",
}
_NOTHING = ("no", "none", "yes", "~", "-")
_NAME = re.compile(r"[A-Za-z]\w*")
_BRACKETED = re.compile(r"\w[^\n\[\]{}#\"']*(?<![:\s])")
_QUOTED_NUMBER = re.compile(
    r"0|[1-9]\d*", re.ASCII
)  # unquoted, it were a number by now
_BELOW = {
    "array": 'Write its lines below it, each beginning with "- ".',
    "object": "Write its keys on the lines below it, each indented by two spaces.",
}


def _pattern(error: Broken) -> tuple[str, str]:
    name, hint = str(error.found), str(error.schema.get("description", ""))
    if says := error.schema.get("x-says"):
        return f"{shown(name)} {says}", f"{hint} {_example(error)}"
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
