"""What is older than the years of keeping, told in a terminal or as data."""

from __future__ import annotations

import shlex
import textwrap
from collections.abc import Iterable, Iterator
from dataclasses import asdict
from typing import Any

from generator.holdings import PUBLIC, Place
from generator.keeping import Keeping
from generator.problems import counted
from generator.retaining import Older, Retained

WIDTH = 88  # columns of a paragraph; our choice
THOUSAND = 1000  # bytes of a kB (SI prefixes)
UNITS = ("bytes", "kB", "MB", "GB", "TB")
NO_YEARS = """\
The firm file names no years of keeping, so nothing can be told of what is older. Set \
them in inspections/firm.yaml with a line such as "keep_years: 10", in whole years."""
RULE = """\
The firm keeps each job for {years} from its last report, or from the visit where no \
report was given ("keep_years" in inspections/firm.yaml). On {on} that time is over \
for {older} of {all}. This only tells: nothing is removed."""
OPEN_LINKS = """\
An open link: once the job file is gone, a build tells of the published folder as a \
stray and leaves it, so the report stays readable. "onlot build --remove-strays" takes \
it away, and the link then leads to nothing, not even to a page that says whom to ask. \
A pipeline that keeps public/ from one run to the next has to do the same. To tell the \
client first: onlot withdraw JOB, build, publish, and remove the job later."""
NO_SECRET = """\
The link secret is not here. Which folder in public/ is whose is told only where the \
last build wrote it down, and sealed reports are not looked for."""
HISTORY = """\
What removing does not take away: git keeps every version of these files in its \
history, and so do every clone and every backup. Taking them out of there means \
rewriting the history. That changes every commit after it, and breaks the commits that \
other reports are proved by. onlot never does it. What was uploaded, sent, printed or \
written elsewhere with --out is not reached either, and the register in office/ names \
the job until "onlot office" writes it anew."""
CAUTION = """\
Laws and contracts on how long such records must or may be kept differ from place to \
place. Ask a lawyer or the licensing authority before removing anything. (A caution: \
common practice, no source.)"""
BY_HAND = """\
By hand, in the firm's folder, where the firm decides so ("git rm" takes no file that \
git does not hold, and none that was changed since):"""
AFTER_ALL = (
    'git commit -m "Remove jobs past their years of keeping"',
    "onlot build --remove-strays",
)


def as_text(found: Retained) -> str:
    """Tell it in a terminal.

    Parameters
    ----------
    found : Retained
        What is told of all jobs.

    Returns
    -------
    str
        Paragraphs, the jobs in the order of the day on which their keeping ended.
    """
    if found.years is None:
        return _wrapped(NO_YEARS)
    told = [_head(found), *map(_job, found.older)]
    if found.untold:
        lines = (f"  {job}: {because}" for job, because in found.untold)
        told.append("\n".join(("Cannot be told:", *lines)))
    if found.older:
        told += [_wrapped(_in_all(found.older)), *map(_wrapped, _cautions(found))]
        told.append(_by_hand(found.older))
    return "\n\n".join(told)


def as_data(found: Retained) -> dict[str, Any]:
    """Give it as plain data for machines; sizes in bytes, days as ISO 8601."""
    return {
        "on": found.on,
        "keep_years": found.years,
        "older": [_job_data(one) for one in found.older],
        "within": [{"job": k.job, "kept_until": k.until} for k in found.within],
        "cannot_be_told": [
            {"job": job, "because": because} for job, because in found.untold
        ],
        "secret_is_here": found.has_secret,
        "after_all": list(AFTER_ALL) if found.older else [],
        "cautions": [NO_YEARS] if found.years is None else list(_cautions(found)),
    }


def size(number: int) -> str:
    """Write a number of bytes in plain units.

    Examples
    --------
    >>> size(1), size(999), size(5352), size(999_960), size(31_200_000)
    ('1 byte', '999 bytes', '5.4 kB', '1.0 MB', '31.2 MB')
    """
    if number < THOUSAND:
        return counted(number, "byte")
    value, unit = float(number), 0
    while round(value, 1) >= THOUSAND and unit < len(UNITS) - 1:
        value, unit = value / THOUSAND, unit + 1
    return f"{value:.1f} {UNITS[unit]}"


def _head(found: Retained) -> str:
    told, years = len(found.older) + len(found.within), found.years or 0
    head = _wrapped(
        RULE.format(
            years=counted(years, "year"),
            on=found.on,
            older=len(found.older),
            all=counted(told + len(found.untold), "job"),
        )
    )
    if not found.within:
        return head
    first = found.within[0]
    kept = f"{counted(len(found.within), 'job')} still to be kept; the first of them"
    return f"{head}\n{_wrapped(f'{kept} until {first.until}: {first.job}.')}"


def _job(one: Older) -> str:
    kept = one.keeping
    lines = [
        f"{kept.job} · {_on_one_line(kept.client)} · {_on_one_line(kept.address)}",
        f"  visit {kept.visit.iso} · {_report(kept)} · kept until {kept.until}",
        f"  {_link(one)}",
        "  Removing it would take away, of what git holds:",
        *(f"    {_place(place)}" for place in one.own),
    ]
    if one.links_file:
        lines.append(f"    {one.links_file}: its file of links, counted in its folder")
    if one.made:
        lines.append("  and of what onlot made of it here:")
        lines += [f"    {_place(place)}" for place in one.made]
    return "\n".join(lines)


def _on_one_line(text: str) -> str:
    return " ".join(text.split())


def _report(kept: Keeping) -> str:
    if kept.last is None:
        return "no report given"
    return f"last report {kept.last.number}, {kept.last.date.iso}"


def _link(one: Older) -> str:
    if one.link is None:
        return f"what its link does cannot be told: {one.state}"
    told = f"link {one.link.number} is {one.state}"
    if not one.is_open:
        return f"{told}: it opens no report"
    until = f" until {one.link.until.iso}" if one.link.until else ""
    return f"{told}{until}: its client could still read the report"


def _place(place: Place) -> str:
    path = f"{place.path}/" if place.is_folder else place.path
    if place.is_link:
        return f"{path}: {place.what}, a link; what it leads to stays"
    files = f", {_files([place])}" if place.is_folder else f", {size(place.size)}"
    unread = ", of which a part cannot be looked into" if place.unread else ""
    return f"{path}: {place.what}{files}{unread}"


def _files(places: Iterable[Place]) -> str:
    every = list(places)
    pictures = sum(one.photographs for one in every)
    others = sum(one.others for one in every)
    told = [counted(pictures, "photograph")] if pictures else []
    told += [counted(others, "other file" if pictures else "file")] if others else []
    if not told:
        return "no files"
    return f"{' and '.join(told)}, {size(sum(one.size for one in every))}"


def _in_all(older: Iterable[Older]) -> str:
    every = list(older)
    own = _files(place for one in every for place in one.own)
    made = _files(place for one in every for place in one.made)
    opened = sum(one.is_open for one in every)
    links = f"{counted(opened, 'link')} {'is' if opened == 1 else 'are'} open"
    return (
        f"In all, {counted(len(every), 'job')}: of what git holds, {own}; of what "
        f"onlot made here, {made}. {links}."
    )


def _cautions(found: Retained) -> Iterator[str]:
    if not found.older:
        return
    if not found.has_secret:
        yield NO_SECRET
    if any(one.is_open for one in found.older):
        yield OPEN_LINKS
    yield HISTORY
    yield CAUTION


def _by_hand(older: Iterable[Older]) -> str:
    commands = [command for one in older for command in _commands(one)]
    lines = (f"  {command}" for command in (*commands, *AFTER_ALL))
    return "\n".join((_wrapped(BY_HAND), *lines))


def _commands(one: Older) -> Iterator[str]:
    """Write what a person could run; git knows no folder without a file."""
    empty = [p for p in one.own if p.is_folder and not (p.photographs or p.others)]
    in_git = [place.path for place in one.own if place not in empty]
    yield f"git rm -r {shlex.join(in_git)}"
    strays = f"{PUBLIC}/"  # a build takes these away, which keeps others out meanwhile
    rest = [p.path for p in (*empty, *one.made) if not p.path.startswith(strays)]
    if rest:
        yield f"rm -r {shlex.join(rest)}"


def _job_data(one: Older) -> dict[str, Any]:
    kept, link = one.keeping, one.link
    report = kept.last and {"number": kept.last.number, "date": kept.last.date.iso}
    until = link.until.iso if link and link.until else None
    return {
        "job": kept.job,
        "client": kept.client,
        "address": kept.address,
        "visit": kept.visit.iso,
        "report": report,
        "kept_until": kept.until,
        "link": link and {"number": link.number, "state": one.state, "until": until},
        "link_problem": None if link else one.state,
        "links_file": one.links_file or None,
        "own": [asdict(place) for place in one.own],
        "made": [asdict(place) for place in one.made],
        "by_hand": list(_commands(one)),
    }


def _wrapped(text: str) -> str:
    return textwrap.fill(text, WIDTH, break_long_words=False, break_on_hyphens=False)
