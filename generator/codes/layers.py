"""The codes that hold at one lot: town over state, the firm's own rows, a program."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from generator.codes import packs
from generator.codes.packs import SECTIONS, Asked, Pack, asked_by, source_key
from generator.codes.rows import Cited
from generator.codes.when import SILENT, Answers
from generator.problems import Problem, Refused
from generator.record.model import Record
from generator.record.read import read


@dataclass(frozen=True)
class Layer:
    """One jurisdiction: what ships of it, and what the firm adds or corrects."""

    shipped: Pack | None
    own: Pack | None

    @property
    def pack(self) -> Pack:
        """The firm's pack where it has one, else the one that ships."""
        found = self.own or self.shipped
        assert found is not None  # a layer is made of at least one
        return found

    @property
    def authority(self) -> str | None:
        """Whom to ask; the firm's pack need not say it again."""
        named = (pack.authority for pack in (self.own, self.shipped) if pack)
        return next(filter(None, named), None)

    def section(self, name: str) -> tuple[Cited, Pack, bool] | None:
        """Give a section, its pack, and whether it is the firm's own."""
        for pack, firm in ((self.own, True), (self.shipped, False)):
            found = getattr(pack, name, None)
            if pack is not None and found is not None:
                return found, pack, firm
        return None

    def asked(self, part: str, feature: str, answers: Answers) -> Iterator[Asked]:
        """List the rows for a pair; the firm's take the place of those that ship."""
        for pack, firm in ((self.own, True), (self.shipped, False)):
            if pack is not None and pack.rows(part, feature):
                yield from asked_by(pack, part, feature, answers, firm=firm)
                return


@dataclass(frozen=True, kw_only=True)
class Code(Pack):
    """All that holds at one lot, as one pack; ``layers`` lead from the lot outward.

    A section is that of the nearest layer which has it. Rows of distances are asked of
    every layer, since the stricter holds.
    """

    layers: tuple[Layer, ...] = ()
    program: Layer | None = None
    origins: Mapping[str, str] | None = None

    def source(self, section: str) -> str:
        """Give the source key of one section, wherever it came from."""
        return (self.origins or {}).get(section, super().source(section))

    def asked(
        self, part: str, feature: str, answers: Answers = SILENT
    ) -> tuple[Asked, ...]:
        """List every row that holds or may hold for a pair, from the lot outward."""
        return tuple(
            one for layer in self.layers for one in layer.asked(part, feature, answers)
        )

    def asked_by_program(
        self, part: str, feature: str, answers: Answers = SILENT
    ) -> tuple[Asked, ...]:
        """List the rows of the loan program for a pair."""
        if self.program is None:
            return ()
        return tuple(self.program.asked(part, feature, answers))

    def own_pack(self, name: str) -> Pack:
        """Give the firm's own pack of a name in use here."""
        layers = (*self.layers, *((self.program,) if self.program else ()))
        found: list[Pack] = [layer.own for layer in layers if layer.own is not None]
        return next(one for one in found if one.name == name)


def code_for(record: Record) -> Code | None:
    """Give the code that a job names with all it lies within; None where it names none.

    Raises
    ------
    Refused
        Where no pack has that name, or a pack of the firm has a mistake.
    """
    home = record.inspection.property
    if home.code is None and home.program is None:
        return None
    own = own_packs(record.codes_folder)
    layers = _layers(record, "code", own) if home.code else ()
    program = _layers(record, "program", own)[0] if home.program else None
    return merged(layers, program)


def merged(layers: tuple[Layer, ...], program: Layer | None = None) -> Code:
    """Make one code of its layers."""
    first = (layers or ((program,) if program else ()))[0]
    sections, origins = {}, {}
    for name in SECTIONS:
        found = next(filter(None, (layer.section(name) for layer in layers)), None)
        if found:
            sections[name], pack, firm = found
            origins[name] = source_key(pack, name, firm=firm)
    authority = next(filter(None, (layer.authority for layer in layers)), None)
    return Code(
        name=first.pack.name,
        jurisdiction=first.pack.jurisdiction if layers else "no local code",
        authority=authority,
        layers=layers,
        program=program,
        origins=origins,
        **sections,  # type: ignore[arg-type]  # each under its own name
    )


def _layers(record: Record, key: str, own: Mapping[str, Pack]) -> tuple[Layer, ...]:
    name: str | None = getattr(record.inspection.property, key)
    found: list[Layer] = []
    while name is not None and all(name != layer.pack.name for layer in found):
        if name not in packs.names() and name not in own:
            raise Refused([_unknown(record, key, name, own, found)])
        layer = Layer(packs.shipped(name), own.get(name))
        found.append(layer)
        name = layer.pack.within or (layer.shipped.within if layer.shipped else None)
    return tuple(found)


def _unknown(
    record: Record, key: str, name: str, own: Mapping[str, Pack], found: list[Layer]
) -> Problem:
    """Say which name is unknown: the one in the job, or one in a pack of the firm."""
    told = _not_called(name, own)
    if not found:
        path = record.inspection.property.path(key)
        file = f"inspections/{record.job}.yaml"
        return Problem(file, record.line(path), path, *told)
    own_file = Path(record.codes_folder, f"{found[-1].pack.name}.yaml")
    shown = f"inspections/codes/{own_file.name}"
    line = read(own_file, shown_as=shown).line("within")
    return Problem(shown, line, "within", *told)


def _not_called(name: str, own: Mapping[str, Pack]) -> tuple[str, str]:
    known = sorted({*packs.names(), *own})
    near = difflib.get_close_matches(name, known, 1)
    hint = f'Did you mean "{near[0]}"? ' if near else ""
    return (
        f'No code pack is called "{name[:80]}".',
        f"{hint}The packs: {', '.join(known)}.",
    )


def packs_called(name: str, own: Mapping[str, Pack]) -> tuple[Pack | None, Pack | None]:
    """Give the pack that ships and the firm's own of one name.

    Raises
    ------
    Refused
        Where there is neither.
    """
    shipped = packs.shipped(name)
    if shipped is None and name not in own:
        raise Refused([Problem(name[:80], 0, "", *_not_called(name, own))])
    return shipped, own.get(name)


def own_packs(folder: str) -> dict[str, Pack]:
    """Read the firm's own packs; none where there is no such folder.

    Raises
    ------
    Refused
        With every problem of every pack.
    """
    where = Path(folder)
    if not folder or not where.is_dir():
        return {}
    problems: list[Problem] = []
    found: dict[str, Pack] = {}
    for path in sorted(where.glob("*.yaml")):
        try:
            stat = path.stat()
            found[path.stem] = _own(path, stat.st_mtime_ns, stat.st_size)
        except Refused as refused:
            problems.extend(refused.problems)
    if problems:
        raise Refused(problems)
    return found


@lru_cache
def _own(path: Path, _changed: int, _size: int) -> Pack:
    """Read one pack of the firm, and again when its file has changed."""
    return packs.read_pack(path, shown_as=f"inspections/codes/{path.name}")
