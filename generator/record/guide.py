"""The field guide of the job file as a page, written from the schema alone."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.record.keys import Key, all_keys, kind_words
from generator.record.kinds import FOR_ALL, GROUPS, KIND, Kind

_HEAD = """\
# Field guide

Every key of a job file. This page is made from `schemas/inspection.schema.json` by
`onlot fields --page`; change the schema and not the page. On the lot, `onlot fields
sludge` tells the same of one key.

A key marked *required* must stand wherever its group does. `[]` stands for each entry
of a list.
"""
_AMOUNTS = "How amounts are typed"
_VISIT = "In the order of a visit"

# What each step of a visit records; common practice, no source.
STEPS: dict[str, tuple[str, ...]] = {
    "Before": (
        "client.asks", "property", "consent.run_water", "consent.utilities", "records",
        "household", "load_test.limits",
    ),
    "Find": ("datum", "places", "depths", "features", "distances"),
    "Open": (
        "tanks", "tanks[].cover", "tanks[].sludge", "tanks[].scum",
        "tanks[].outlet_device_state", "tanks[].on_plan", "distribution_box",
        "pump_chamber", "cesspool",
    ),
    "Run water": (
        "load_test", "load_test.water", "load_test.levels", "load_test.stop_reason",
        "cesspool.water", "two_day_test",
    ),
    "Look inside": ("pipe_runs", "pipe_runs[].log", "tanks[].structure", "photos"),
    "Walk": ("walkover", "absorption_areas", "visit.ground", "visit.rain"),
    "Close": ("tanks[].covers_back", "load_test.ended", "visit.end", "not_seen"),
    "Desk": ("findings", "overrides", "client.answer", "state", "reports"),
}  # fmt: skip
LONGEST_IN_A_LINE = 60  # characters of an example behind its kind; our choice
QUOTE = '"'


def guide() -> str:
    """Write the field guide as Markdown.

    Returns
    -------
    str
        The steps of a visit, a table of contents, the kinds of amounts, and one heading
        for each key, in the order of the schema.

    Examples
    --------
    >>> guide().startswith("# Field guide")
    True
    """
    parts = (_HEAD, *_visit(), *_contents(), *_amounts(), *map(_entry, all_keys()))
    return "\n".join(parts)


def anchor(heading: str) -> str:
    """Name the place of a heading, as the common readers of Markdown do.

    Examples
    --------
    >>> anchor("`tanks[].sludge`"), anchor("Length of time")
    ('tankssludge', 'length-of-time')
    """
    return re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-")


def _visit() -> Iterator[str]:
    titles = {key.path: str(key.node["title"]) for key in all_keys()}
    yield f"## {_VISIT}\n"
    for step, paths in STEPS.items():
        links = (f"[{titles[path]}](#{anchor(path)}) `{path}`" for path in paths)
        yield f"- **{step}**: {', '.join(links)}"
    yield ""


def _contents() -> Iterator[str]:
    yield "## Contents\n"
    yield f"- [{_AMOUNTS}](#{anchor(_AMOUNTS)})"
    for key in all_keys():
        if "." not in key.path:
            wanted = " (required)" if key.required else ""
            yield f"- [{key.node['title']}](#{anchor(key.path)}): `{key.path}`{wanted}"
    yield ""


def _amounts() -> Iterator[str]:
    yield f"## {_AMOUNTS}\n\n{FOR_ALL}\n"
    yield from map(_kind, GROUPS)


def _kind(kind: Kind) -> str:
    lines = [f"### {kind.title}", "", kind.how, "", f"- Read: {_typed(kind)}"]
    lines += [f"- Refused: {_refused(kind)}"]
    if kind.name in kind.units:
        lines += [f"- Units: {'; '.join(kind.spellings())}"]
    elif kind.units:
        named = " and of a ".join(_linked(KIND[name]) for name in kind.units)
        lines += [f"- Units: those of a {named}"]
    return "\n".join((*lines, ""))


def _linked(kind: Kind) -> str:
    return f"[{kind.title.lower()}](#{anchor(kind.title)})"


def _typed(kind: Kind) -> str:
    first = re.sub(r'"([^"]*)"', r"`\1`", kind.examples)
    return f"{first}; also " + ", ".join(f"`{one}`" for one in kind.read)


def _refused(kind: Kind) -> str:
    told = ((one, kind.why_refused(one)) for one in kind.refused)
    return " ".join(f"`{one}`{':' * (why[0] in QUOTE)} {why}" for one, why in told)


def _entry(key: Key) -> str:
    rank = "#" * (2 + key.path.count("."))
    wanted = " (required)" if key.required else ""
    lines = [f"{rank} `{key.path}`", ""]
    lines += [f"**{key.node['title']}**{wanted}. {key.node['description']}", ""]
    if key.listed:
        return "\n".join((*lines, f"{_values(key)}.", ""))
    example = key.example()
    if len(example) == 1 and len(example[0]) <= LONGEST_IN_A_LINE:
        return "\n".join((*lines, f"{_values(key)}, such as `{example[0]}`.", ""))
    lines += [f"{_values(key)}.", "", "```yaml", *example, "```", ""]
    if shown := key.one_line():
        ways = " or ".join(f"`{way}`" for way in key.patterns())
        lines += [f"An entry may stand on one line, {ways}:", ""]
        lines += ["```yaml", f"{key.name}:", *shown, "```", ""]
    return "\n".join(lines)


def _values(key: Key) -> str:
    if key.listed:
        many = "A list of some of " if "items" in key.node else "One of "
        return many + ", ".join(f"`{value}`" for value in key.listed)
    words = kind_words(key)
    if key.format:
        kind = KIND[key.format]
        words = words.replace(kind.title.lower(), _linked(kind))
    return words[0].upper() + words[1:]
