"""The inspector's words as paragraphs and lists, in HTML that holds nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.rules_block import StateBlock, list_block
from markdown_it.token import Token
from markupsafe import Markup

from generator.pages.wording import prose

BEGINS_A_LIST = re.compile(r"(?:[-*]|1[.)])[ \t]+(?=\S)(?![-*_ \t]+$)")
DEEPEST = 6  # levels of a list in a list, two for each; our choice
MAY_INTERRUPT = {"alt": ["paragraph", "reference", "blockquote"]}
TAGS = {
    "paragraph_open": "<p>",
    "paragraph_close": "</p>",
    "bullet_list_open": "<ul>",
    "bullet_list_close": "</ul>",
    "ordered_list_open": "<ol>",
    "ordered_list_close": "</ol>",
    "list_item_close": "</li>",
}


def prose_blocks(text: str | None) -> Markup:
    r"""Write the inspector's words: paragraphs and lists of ``prose``, nothing else.

    A single paragraph stays bare, so that words may stand before and after it on its
    line. Of more than one block, the first paragraph stays bare and the others follow
    as HTML, each on a line of its own.

    Examples
    --------
    >>> str(prose_blocks("a *wet* strip"))
    'a <em>wet</em> strip'
    >>> str(prose_blocks("Roots:\n- at the inlet\n- in the box"))
    'Roots:\n\n<ul><li>at the inlet</li><li>in the box</li></ul>\n\n'
    """
    first, *others = _blocks(text)
    if not others:
        return Markup(first)
    return Markup("".join(f"{one}\n\n" for one in [first, *others]))


def has_blocks(text: str | None) -> bool:
    """Say whether a text is more than one paragraph."""
    return len(_blocks(text)) > 1


@lru_cache(maxsize=1024)  # whether there are several is asked first
def _blocks(text: str | None) -> tuple[str, ...]:
    """Give the bare first paragraph, which may be empty, and each block after it."""
    tokens = _PARSER.parse(text or "")
    if not tokens:
        return ("",)
    pieces = ["".join(_written(block)) for block in _split(tokens)]
    if tokens[0].type == "paragraph_open":
        return (pieces[0].removeprefix("<p>").removesuffix("</p>"), *pieces[1:])
    return ("", *pieces)


def _split(tokens: Sequence[Token]) -> Iterator[list[Token]]:
    """Take a document apart into the blocks at its left margin."""
    block: list[Token] = []
    for token in tokens:
        block.append(token)
        if token.level == 0 and token.nesting < 0:
            yield block
            block = []


def _written(tokens: Sequence[Token]) -> Iterator[str]:
    counts: list[int] = []  # the number that comes next, for each list that is open
    for token in tokens:
        if token.type == "inline":
            yield prose(token.content)
        elif token.type == "list_item_open":
            counts[-1], tag = _item(token, counts[-1])
            yield tag
        elif not token.hidden:
            if token.type.endswith("list_open"):
                counts.append(1)
            elif token.type.endswith("list_close"):
                counts.pop()
            yield TAGS[token.type]


def _item(token: Token, expected: int) -> tuple[int, str]:
    """Begin an item under the number that was typed, and give the number after it."""
    number = int(token.info) if token.info else expected
    tag = "<li>" if number == expected else f'<li value="{number}">'
    return number + 1, tag


def _list(state: StateBlock, start: int, end: int, silent: bool) -> bool:
    """Begin a list only where the line can hardly mean anything else."""
    if silent and state.sCount[start] < state.blkIndent:  # the next item of a list
        return list_block(state, start, end, silent)
    line = state.src[state.bMarks[start] + state.tShift[start] : state.eMarks[start]]
    if state.level >= DEEPEST or not BEGINS_A_LIST.match(line):
        return False
    return list_block(state, start, end, silent)


def _block_parser() -> MarkdownIt:
    parser: Any = MarkdownIt("zero").enable(["list", "paragraph"])
    parser.block.ruler.at("list", _list, MAY_INTERRUPT)
    found: MarkdownIt = parser
    return found


_PARSER = _block_parser()
