"""What follows from the absorption areas: loading, area asked, space in the stone."""

from __future__ import annotations

from dataclasses import dataclass

from generator.codes.packs import Pack
from generator.record.model import Record
from generator.record.parts import AbsorptionArea
from generator.results.absorption_area import (
    bottom_ft2,
    loading_gpd_per_ft2,
    required_ft2,
    share_filled_percent,
    sidewall_ft2,
    stone_space_gal,
)
from generator.results.asked import CONFIRM
from generator.results.design_flow import UNREAD, DailyFlow, DailyFlows
from generator.results.guard_band import hold
from generator.results.measured import (
    DISTANCES_FT,
    STONE_IN,
    USUAL_VOID_PERCENT,
    VOID_PERCENT,
    measured,
)
from generator.results.result import Number, Result, Symbol, nominal
from generator.results.rounding import said

USUAL_VOID = 35.0  # percent of the stone; common practice, no source
SEVERAL = ("trenches", "chambers")  # kinds of which there is usually more than one
WALLS_TAKE_IT = "seepage pit"  # its bottom says little of what it takes
NO_STONE = "chambers"
BY_RECORD = "as-built"  # our choice where nobody noted how it was measured
BY_UNKNOWN = "how the area was measured was not recorded: taken as from an as-built"
ONE_TAKEN = "the number of trenches was not recorded: one is counted"


@dataclass(frozen=True)
class Field:
    """One absorption area with its measures and a name that no other has. [ft]"""

    recorded: AbsorptionArea
    name: str

    @property
    def known(self) -> bool:
        """Whether its bottom can be worked out."""
        one = self.recorded
        return (
            one.kind != WALLS_TAKE_IT
            and one.length is not None
            and one.width is not None
            and one.length.inches > 0
            and one.width.inches > 0
        )

    def sides_ft(self) -> tuple[Number, Number]:
        """Length and width, each with its uncertainty. [ft]"""
        one, method = (
            self.recorded,
            DISTANCES_FT[self.recorded.measured_by or BY_RECORD],
        )
        long = one.length.feet if one.length else 0.0
        wide = one.width.feet if one.width else 0.0
        return measured(long, method), measured(wide, method)

    @property
    def count(self) -> int:
        """Number of trenches. [-]"""
        return self.recorded.count or 1

    def assumptions(self) -> tuple[str, ...]:
        """Say what was assumed of its measures."""
        one = self.recorded
        found = [DISTANCES_FT[one.measured_by or BY_RECORD].assumption()]
        if one.measured_by is None:
            found.append(BY_UNKNOWN)
        if one.count is None and one.kind in SEVERAL:
            found.append(ONE_TAKEN)
        return tuple(found)

    def paths(self, *keys: str) -> tuple[str, ...]:
        """List the keys of its measures that were given."""
        return tuple(
            self.recorded.path(key)
            for key in ("length", "width", "count", "measured_by", *keys)
            if getattr(self.recorded, key) is not None
        )


def absorption_results(
    record: Record, pack: Pack | None, test_volume_gal: Number | None
) -> list[Result]:
    """Work out every absorption area and what all of them get together."""
    fields = _fields(record.inspection.absorption_areas)
    known = [one for one in fields if one.known]
    bottoms = {one.name: bottom_ft2(*one.sides_ft(), one.count) for one in known}
    found: list[Result] = []
    for one in known:
        found.append(_bottom(one, bottoms[one.name]))
        found += _stone(one, bottoms[one.name])
    spaces = [one.number for one in found if one.name.endswith(".stone_space")]
    if fields and len(known) == len(fields):
        flow = DailyFlows(record, pack).design
        total = sum(bottoms.values())
        if flow and nominal(total) > 0:
            found.append(_loading(fields, flow, total))
            found += _required(fields, flow, pack, total)
        if test_volume_gal is not None and len(spaces) == len(fields):
            found += _share(fields, test_volume_gal, sum(spaces))
    return found


def _fields(areas: tuple[AbsorptionArea, ...]) -> list[Field]:
    names: list[str] = []
    for one in areas:
        again = sum(name.partition("#")[0] == one.name for name in names)
        names.append(f"{one.name}#{again + 1}" if again else one.name)
    return [Field(one, name) for one, name in zip(areas, names, strict=True)]


def _bottom(one: Field, bottom: Number) -> Result:
    long, wide = one.sides_ft()
    return Result(
        f"area.{one.name}.bottom",
        f"Bottom area of the {one.recorded.name}",
        bottom,
        "ft²",
        "A = L × W × n",
        (
            Symbol("L", long, "ft", "length"),
            Symbol("W", wide, "ft", "width"),
            Symbol("n", float(one.count), "", "how many"),
        ),
        one.paths(),
        "practice",
        one.assumptions(),
    )


def _stone(one: Field, bottom: Number) -> list[Result]:
    area = one.recorded
    if area.stone_depth is None or (area.kind == NO_STONE and area.void_share is None):
        return []
    depth = measured(area.stone_depth.inches, STONE_IN)
    method = VOID_PERCENT if area.void_share else USUAL_VOID_PERCENT
    share = area.void_share.percent if area.void_share else USUAL_VOID
    void = measured(share, method)
    return [
        Result(
            f"area.{one.name}.stone_space",
            f"Empty space in the stone of the {area.name}, up to the pipe",
            stone_space_gal(bottom, depth, void),
            "gal",
            "Vs = A × h / 12 × p / 100 × 7.4805",
            (
                Symbol("A", bottom, "ft²", "bottom area"),
                Symbol("h", depth, "in", "stone up to the invert of the pipe"),
                Symbol("p", void, "%", "share of the stone that is empty"),
            ),
            one.paths("stone_depth", "void_share"),
            "NIST-HB44",
            (*one.assumptions(), STONE_IN.assumption(), method.assumption()),
        )
    ]


def _assumed(fields: list[Field]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(text for one in fields for text in one.assumptions()))


def _paths(fields: list[Field], *keys: str) -> tuple[str, ...]:
    return tuple(path for one in fields for path in one.paths(*keys))


def _loading(fields: list[Field], flow: DailyFlow, total: Number) -> Result:
    return Result(
        "area.loading",
        "Loading of the bottom at the design flow",
        loading_gpd_per_ft2(flow.gpd, total),
        "gal/(day ft²)",
        "r = Q / A",
        (
            Symbol("Q", flow.gpd, "gal/day", flow.words),
            Symbol("A", total, "ft²", "bottom of all areas"),
        ),
        (flow.path, *_paths(fields)),
        flow.source,
        (*_assumed(fields), *(() if flow.seen else (UNREAD,))),
    )


@dataclass(frozen=True)
class _Rate:
    """A loading rate and where it comes from. [gal/(day ft²)]"""

    value: float
    source: str
    keys: tuple[str, ...]
    words: str
    seen: bool = True
    wall_ft: int = 0


def _rate(one: AbsorptionArea, pack: Pack | None) -> _Rate | None:
    table = pack.loading if pack else None
    if pack and table:
        speed = one.percolation.min_per_in if one.percolation else None
        keys = ("percolation", "soil")
        found = table.rate(speed, one.soil)
        if found is not None and found > 0:
            seen = table.seen == "yes"
            words = "rate read from the table of the code" if seen else UNREAD
            wall = table.sidewall_ft or 0
            source = pack.source("loading")
            return _Rate(found, source, keys, words, seen, wall)
    if one.loading and one.loading.gpd_per_ft2 > 0:
        words = f"rate as recorded, from {one.loading_from or 'a source not named'}"
        return _Rate(one.loading.gpd_per_ft2, "inspector", ("loading",), words)
    return None


def _required(
    fields: list[Field], flow: DailyFlow, pack: Pack | None, total: Number
) -> list[Result]:
    rates = [_rate(one.recorded, pack) for one in fields]
    known = [rate for rate in rates if rate]
    if not known:
        return []
    rate = min(known, key=lambda one: one.value)
    assumed = [rate.words, *_assumed(fields), *(() if flow.seen else (UNREAD,))]
    if len({one.value for one in known}) > 1 or len(known) < len(fields):
        assumed.append("the lowest rate found is used for all areas")
    counted = total
    if rate.wall_ft:
        assumed.append(f"{rate.wall_ft} ft of side wall is counted, as the code does")
        counted = total + sum(
            sidewall_ft2(*one.sides_ft(), one.count, rate.wall_ft) for one in fields
        )
    asked = required_ft2(flow.gpd, rate.value)
    decides = rate.seen and flow.seen
    return [
        Result(
            "area.required",
            f"Area asked at the design flow; {said(counted, 'ft²')} is there",
            asked,
            "ft²",
            "A = Q / r",
            (
                Symbol("Q", flow.gpd, "gal/day", flow.words),
                Symbol("r", rate.value, "gal/(day ft²)", "loading rate"),
            ),
            (flow.path, *_paths(fields, *rate.keys)),
            rate.source,
            tuple(dict.fromkeys(assumed)),
            hold(counted, nominal(asked), least=True) if decides else CONFIRM,
        )
    ]


def _share(fields: list[Field], test_gal: Number, space: Number) -> list[Result]:
    if nominal(space) <= 0:
        return []
    return [
        Result(
            "area.test_share",
            "How much of an empty bed the test water could have filled",
            share_filled_percent(test_gal, space),
            "%",
            "s = 100 × V / Vs",
            (
                Symbol("V", test_gal, "gal", "test water"),
                Symbol("Vs", space, "gal", "empty space in the stone"),
            ),
            _paths(fields, "stone_depth", "void_share"),
            "BALANCE",
            (
                *_assumed(fields),
                "the stone taken as empty and drained when the test began",
            ),
        )
    ]
