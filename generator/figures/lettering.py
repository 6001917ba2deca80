"""The letters of a figure: each drawn once, and each word that comes twice set once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import groupby, product
from string import ascii_letters

import numpy as np
from matplotlib.font_manager import FontProperties, findfont, get_font
from matplotlib.textpath import text_to_path

from generator.figures.svg_paths import outline

UNITS = 500  # of a letter's height, 0.007 mm in small print; our choice
KEPT = 8192  # strings whose letters are kept set in a process; our choice
DPI = 72

Letter = tuple[str, int]  # outline, and how far along it stands
Word = tuple[Letter, ...]
Placed = tuple[Word, int]


@lru_cache(KEPT)
def measured(words: str, prop: FontProperties) -> tuple[float, float, float]:
    """Give width, height and depth below the line of words. [pt]"""
    return text_to_path.get_text_width_height_descent(words, prop, False)


def size_of(prop: FontProperties) -> float:
    """Give what one unit of a letter measures. [pt]"""
    return float(prop.get_size_in_points()) / UNITS


def set_in(words: str, prop: FontProperties) -> tuple[Placed, ...]:
    """Set words in letters.

    Parameters
    ----------
    words : str
        One line of text.
    prop : FontProperties
        Its font.

    Returns
    -------
    tuple of tuple
        Each word as outlines with how far along they stand in it, and how far along
        the line the word stands; in units of a letter.
    """
    return _set(words, prop.copy())


@lru_cache(KEPT)
def _set(words: str, prop: FontProperties) -> tuple[Placed, ...]:
    font = get_font(findfont(prop))
    font.set_size(text_to_path.FONT_SCALE, DPI)
    scale = UNITS / text_to_path.FONT_SCALE
    placed, shapes, _ = text_to_path.get_glyphs_with_font(font, words)
    outlines = {
        name: outline(np.asarray(points) * scale, codes)
        for name, (points, codes) in shapes.items()
    }
    letters = [(outlines[name], x * scale) for name, x, *_ in placed]
    found = []
    for seen, group in groupby(letters, key=lambda one: bool(one[0])):
        word = list(group)
        if seen:  # a space is no letter
            start = word[0][1]
            steps = tuple((drawn, round(x - start)) for drawn, x in word)
            found.append((steps, round(start)))
    return tuple(found)


@dataclass(frozen=True)
class Line:
    """One line of text: how it looks, its words, and what cuts it off."""

    look: str
    words: tuple[Placed, ...]
    clip: str = ""


@dataclass
class Lettering:
    """The letters and words that one figure uses, and what they are called."""

    lines: list[Line] = field(default_factory=list)
    _names: dict[str, str] = field(default_factory=dict)
    _words: dict[Word, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Begin with the shortest names."""
        self._free = _names()
        self._free_for_words = _names()

    def share(self) -> Iterator[str]:
        """Define every word that comes more than once; ends before any line is asked.

        Yields
        ------
        str
            The element of one such word.
        """
        count = Counter(word for line in self.lines for word, _ in line.words)
        for word, times in count.items():
            if times > 1 and len(word) > 1:
                self._words[word] = f"w{next(self._free_for_words)}"
                yield f'<g id="{self._words[word]}">{self._spelled(word, 0)}</g>\n'

    def written(self, line: Line) -> str:
        """Write one line of text, its words by name where they are shared."""
        inside = "".join(
            f'<use href="#{self._words[word]}"{_at(x)}/>'
            if word in self._words
            else self._spelled(word, x)
            for word, x in line.words
        )
        text = f"<g{line.look}>{inside}</g>"
        return f"<g{line.clip}>{text}</g>\n" if line.clip else f"{text}\n"

    def outlines(self) -> Iterator[str]:
        """Define every letter that was used."""
        for letter, name in self._names.items():
            yield f'<path id="{name}" d="{letter}"/>\n'

    def _spelled(self, word: Word, start: int) -> str:
        return "".join(
            f'<use href="#{self._name(letter)}"{_at(start + x)}/>' for letter, x in word
        )

    def _name(self, letter: str) -> str:
        if letter not in self._names:
            self._names[letter] = next(self._free)
        return self._names[letter]


def _at(x: int) -> str:
    return f' x="{x}"' if x else ""


def _names() -> Iterator[str]:
    """Give names of letters alone, the shortest first."""
    lengths: Iterable[int] = range(1, 5)
    for length in lengths:
        yield from map("".join, product(ascii_letters, repeat=length))
