"""How people spell amounts: one plain spelling of each sign, and words of refusal."""

from __future__ import annotations

import re

EXAMPLES = {
    "length": '"48 in", "4 ft" or "18 ft 4 in"',
    "volume": '"120 gal"',
    "duration": '"30 min" or "1 h 5 min"',
    "flow": '"4 gpm"',
    "slope": '"1/4 in per ft" or "2 %"',
    "level": '"1/2 in above", "2 in below" or "at invert"',
    "bucket": '"5 gal in 75 s"',
    "clock": '"10:05 am" or "14:05"',
    "moment": '"10:05 am", "14:05", or "10 min" after the water was turned on',
    "reading": '"1/2 in above", "2 in below" or "at invert"',
    "day": '"2026-10-06" or "Oct 6, 2026"',
    "angle": '"140 deg"',
    "share": '"35 %"',
    "number": '"0.012"',
    "percolation": '"20 min/in"',
    "loading": '"0.6 gpd/ft2"',
    "tie": '"A 18 ft 4 in"',
    "target": '"120 gal", "30 min" or "30 % of design flow"',
}

KINDS = {
    "length": "length",
    "volume": "volume",
    "duration": "length of time",
    "flow": "flow",
    "slope": "slope",
    "level": "level",
    "bucket": "bucket check",
    "clock": "time of day",
    "moment": "time of day",
    "reading": "level",
    "day": "date",
    "angle": "direction",
    "share": "share",
    "number": "number",
    "percolation": "percolation rate",
    "loading": "loading rate",
    "tie": "tie",
    "target": "target",
}

LONGEST_AMOUNT = 40  # characters; our choice, no honest amount comes near it

_VULGAR = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}
_SAME = str.maketrans(
    {
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
        "“": '"',
        "”": '"',
        "″": '"',
        "’": "'",
        "‘": "'",
        "′": "'",
        "−": "-",
        "⁄": "/",
    }
)


class AmountError(ValueError):
    """An amount that cannot be read; ``message`` and ``hint`` are whole sentences."""

    def __init__(self, message: str, hint: str = "") -> None:
        self.message = message
        self.hint = hint
        super().__init__(message)


def refuse(text: str, kind: str, why: str) -> AmountError:
    """Make the refusal of a text, with an example of its kind."""
    return AmountError(f'"{text}" {why}', f"Write it as {EXAMPLES[kind]}.")


def plainly(text: str, kind: str) -> str:
    """Spell a text with plain signs; a text far too long is refused unread.

    Raises
    ------
    AmountError
        Where the text is longer than any amount.
    """
    if len(text) > LONGEST_AMOUNT:
        raise AmountError(
            f"A text of {len(text)} characters is too long for a {KINDS[kind]}.",
            f"Write it as {EXAMPLES[kind]}.",
        )
    for sign, spelled in _VULGAR.items():
        text = re.sub(rf"(?<=\d)\s*{sign}", f" {spelled}", text).replace(sign, spelled)
    plain = text.translate(_SAME).strip().replace("''", '"')
    plain = re.sub(r"(ft|m)3$", r"\1³", plain)  # at the end: 1ft3in is no volume
    return re.sub(r"ft2$", "ft²", plain)
