"""What a cesspool or seepage pit has room for: free space, free volume, its share."""

from __future__ import annotations

from generator.codes.packs import Pack
from generator.record.model import Record
from generator.results.cesspool_inside import DEPTH_IN, FLOOR_IN, Pit
from generator.results.cesspool_water_results import pit_test_results
from generator.results.design_flow import UNREAD, DailyFlow, DailyFlows
from generator.results.load_test_target import share_percent
from generator.results.result import Number, Result, Symbol, nominal

RULE = "MA-15-303-PIT"
NONE_FREE = "no free volume: the liquid stands at or above the inlet invert"
SLUDGE_WITHIN = "sludge and scum are counted with the liquid"


def cesspool_results(record: Record, pack: Pack | None) -> list[Result]:
    """Work out plan, free space, free volume and contents of a pit, and its test."""
    recorded = record.inspection.cesspool
    if recorded is None:
        return []
    pit = Pit.of(recorded)
    found = _plan(pit)
    if pit.wrong():
        return found
    free = _free(pit, DailyFlows(record, pack).design)
    return [*found, *free, *_held(pit), *pit_test_results(pit)]


def _plan(pit: Pit) -> list[Result]:
    if pit.plan_ft2 is None:
        return []
    symbols = pit.side_symbols()
    formula = "A = 3.1416 × D × D / 4" if len(symbols) == 1 else "A = L × W"
    return [
        Result(
            "cesspool.plan",
            f"Inside plan area of the {pit.recorded.kind}",
            pit.plan_ft2,
            "ft²",
            formula,
            symbols,
            pit.paths(*pit.plan_keys()),
            "practice",
            pit.assumptions(),
        )
    ]


def _free(pit: Pit, design: DailyFlow | None) -> list[Result]:
    if pit.free_in is None:
        return []
    paths = pit.paths("inlet_down", "liquid_down")
    found = [
        Result(
            "cesspool.free_space",
            "Free space from the liquid up to the inlet invert",
            pit.free_in,
            "in",
            "h = l - i",
            (
                Symbol("l", pit.liquid_in, "in", "mark down to the liquid"),
                Symbol("i", pit.inlet_in, "in", "mark down to the inlet invert"),
            ),
            paths,
            RULE,
            (DEPTH_IN.assumption(),),
        )
    ]
    gallons = pit.gal(pit.free_in)
    if gallons is None:
        return found
    free = gallons if nominal(gallons) > 0 else gallons - gallons
    volume = _volume(
        pit,
        "cesspool.free_volume",
        "Free volume above the liquid, up to the inlet invert",
        free,
        pit.free_in,
        (*paths, *pit.paths(*pit.plan_keys())),
        RULE,
        (DEPTH_IN.assumption(),),
        none=NONE_FREE,
    )
    found.append(volume)
    if design is not None and nominal(design.gpd) > 0:
        found.append(_share(volume, design))
    return found


def _share(volume: Result, design: DailyFlow) -> Result:
    return Result(
        "cesspool.free_share",
        f"Free volume as a share of one day's {design.words}",
        share_percent(volume.number, design.gpd),
        "%",
        "share = 100 × V / Q",
        (
            Symbol("V", volume.number, "gal", "free volume"),
            Symbol("Q", design.gpd, "gal", f"{design.words} of one day"),
        ),
        (design.path, *volume.inputs),
        RULE,
        (
            *volume.assumptions,
            "the design flow is that of the code of this job",
            *(() if design.seen else (UNREAD,)),
        ),
    )


def _held(pit: Pit) -> list[Result]:
    if pit.floor_in is None:
        return []
    found = []
    for name, label, top, key in (
        ("below_inlet", "from its floor up to the inlet", pit.inlet_in, "inlet_down"),
        ("standing", "on the day, liquid and sludge", pit.liquid_in, "liquid_down"),
    ):
        height = None if top is None else pit.floor_in - top
        gallons = pit.gal(height)
        if gallons is not None:
            found.append(
                _volume(
                    pit,
                    f"cesspool.{name}",
                    f"What the {pit.recorded.kind} holds {label}",
                    gallons,
                    height,
                    pit.paths("floor_down", key, *pit.plan_keys()),
                    "NIST-HB44",
                    (DEPTH_IN.assumption(), FLOOR_IN.assumption(), SLUDGE_WITHIN),
                )
            )
    return found


def _volume(
    pit: Pit,
    name: str,
    label: str,
    gallons: Number,
    height: Number,
    paths: tuple[str, ...],
    source: str,
    assumed: tuple[str, ...],
    *,
    none: str = "",
) -> Result:
    empty = bool(none) and nominal(height) <= 0
    return Result(
        name,
        label,
        gallons,
        "gal",
        none if empty else "V = A × h / 12 × 7.4805",
        (pit.plan_symbol(), Symbol("h", height, "in", "height")),
        paths,
        source,
        (*assumed, *pit.assumptions()),
    )
