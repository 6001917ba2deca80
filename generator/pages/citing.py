"""Sources in full, those of code packs and of the firm's own included."""

from __future__ import annotations

from markupsafe import Markup

from generator.codes.layers import Code
from generator.codes.packs import Pack, pack
from generator.pages import wording
from generator.sources import SOURCES, Source


def citation(key: str, code: Pack | None = None) -> Source:
    """Find a source by its key, one of a code pack or of the firm's own included."""
    if key.startswith("pack:"):
        _, name, part = key.split(":")
        return _of_pack(pack(name), part)
    if key.startswith("firm:") and isinstance(code, Code):
        _, name, part = key.split(":")
        return _of_pack(code.own_pack(name), part, "; the firm's own pack")
    return SOURCES[key]


def _of_pack(found: Pack, part: str, own: str = "") -> Source:
    section = getattr(found, part)
    return Source(
        f"{section.citation} ({found.jurisdiction}{own}); {section.edition}",
        section.url or "",
        getattr(section, "seen", "yes") == "yes",
    )


def cite(key: str, code: Pack | None = None) -> Markup:
    """Write a source in full, with its address and whether it was read."""
    source = citation(key, code)
    written = wording.plain(source.citation)
    if source.url:
        written = Markup(f"[{written}]({address(source.url)})")
    return written if source.seen else Markup(f"{written} (cited from memory)")


def address(url: str) -> Markup:
    """Let a public address through as a link target, its signs that end one encoded."""
    held = {"(": "%28", ")": "%29", " ": "%20", "<": "%3C", ">": "%3E", '"': "%22"}
    return Markup("".join(held.get(sign, sign) for sign in url))
