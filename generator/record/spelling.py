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
    "½": "1/2",
    "⅓": "1/3",
    "⅔": "2/3",
    "¼": "1/4",
    "¾": "3/4",
    "⅕": "1/5",
    "⅖": "2/5",
    "⅗": "3/5",
    "⅘": "4/5",
    "⅙": "1/6",
    "⅚": "5/6",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_FRACTION = re.compile(rf"(\d?)(\s*)([{''.join(_VULGAR)}])")
_SAME = str.maketrans(
    {
        **dict.fromkeys("\u00a0\u2002\u2003\u2004\u2005\u2006\u2007", " "),
        **dict.fromkeys("\u2008\u2009\u200a\u202f\u205f\u3000", " "),
        **dict.fromkeys("\u201c\u201d\u201f\u2033\u02ba\u02dd", '"'),
        **dict.fromkeys("\u2018\u2019\u201b\u2032\u02b9\u02bc\u00b4", "'"),
        **dict.fromkeys("\u2010\u2011\u2212", "-"),
        **dict.fromkeys("\u2044\u2215", "/"),
        "\u00ba": "°",  # the ordinal sign, beside the degree on keyboards
    }
)
_POWER = re.compile(r"(?<=[a-z])\^?([23])(?=\s*(?:/|$))", re.I)  # 1ft3in: no volume
_POWERS = {"2": "²", "3": "³"}


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
    if not text.isascii():
        text = _FRACTION.sub(_spelled, text).translate(_SAME)
    plain = text.strip().replace("''", '"')
    return _POWER.sub(lambda power: _POWERS[power[1]], plain)


def _spelled(found: re.Match[str]) -> str:
    """Spell 1¼ as 1 1/4; the space after it keeps ¼2 from being 1/42."""
    gap = " " if found[1] else found[2]
    return f"{found[1]}{gap}{_VULGAR[found[3]]} "
