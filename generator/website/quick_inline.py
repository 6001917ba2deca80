"""Markdown's patterns within a line, tried only where their first sign stands.

Most cells and lines of a report are plain words. Python-Markdown tries each of its
patterns on each of them; a search for one sign says the same and is quicker.
"""

from __future__ import annotations

from typing import Any

from markdown import Markdown
from markdown.extensions import Extension
from markdown.treeprocessors import InlineProcessor
from markdown.util import AtomicString

# A pattern can match only where one of these stands; one that is not named here is
# always tried. Held in tests against the patterns themselves.
SIGNS = {
    "backtick": "`",
    "escape": "\\",
    "reference": "[",
    "link": "[",
    "image_link": "[",
    "image_reference": "[",
    "short_reference": "[",
    "short_image_ref": "[",
    "autolink": "<",
    "automail": "<",
    "linebreak": "\n",
    "html": "<",
    "entity": "&",
    "not_strong": "*_",
    "em_strong": "*_",
    "em_strong2": "_",
}


class QuickInline(Extension):
    """Puts the quick one in the place of Python-Markdown's own."""

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802  # as it is called
        """Take the place."""
        md.treeprocessors.register(_Quick(md), "inline", 20)


class _Quick(InlineProcessor):
    """The same result, reached with fewer tries."""

    _tries: list[tuple[str, Any]] | None = None

    def _InlineProcessor__handleInline(  # noqa: N802  # takes the place of theirs
        self,
        data: str,
        patternIndex: int = 0,  # noqa: N803  # as it is called
    ) -> str:
        if isinstance(data, AtomicString):
            return data
        if self._tries is None:
            known = self.inlinePatterns
            signs_of = {id(known[name]): SIGNS[name] for name in SIGNS if name in known}
            self._tries = [(signs_of.get(id(one), ""), one) for one in known]
        applied = self._InlineProcessor__applyPattern  # type: ignore[attr-defined]
        number, start = patternIndex, 0
        while number < len(self._tries):
            signs, pattern = self._tries[number]
            matched = False
            if not signs or any(sign in data for sign in signs):
                data, matched, start = applied(pattern, data, number, start)
            if not matched:
                number, start = number + 1, 0
        return data
