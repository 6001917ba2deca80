"""Draw the pictures that stand in for photographs in the two demonstration jobs.

Run ``python inspections/illustrations.py`` for all of them, which takes about a quarter
of an hour on two processors, or add the names of those you want. The same code draws
the same picture every time.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from drawing.concrete_tank import outlet_baffle, tank_open
from drawing.liquid_levels import level_after_test, pump_chamber_high
from drawing.riser import broken_riser_cover, scum_and_sludge
from drawing.sewer_camera import first_perforation, settled_pipe
from drawing.sheet import finish
from drawing.yard import mound_toe, well_head
from PIL import Image

HERE = Path(__file__).parent
LARCH_HOLLOW, CATTAIL_LAKE = HERE / "demo-larch-hollow", HERE / "demo-cattail-lake"
PICTURES: dict[str, tuple[Path, Callable[[], Image.Image]]] = {
    "tank-open": (LARCH_HOLLOW, tank_open),
    "outlet-baffle": (LARCH_HOLLOW, outlet_baffle),
    "settled-pipe": (LARCH_HOLLOW, settled_pipe),
    "first-perforation": (LARCH_HOLLOW, first_perforation),
    "well-head": (LARCH_HOLLOW, well_head),
    "broken-riser-cover": (CATTAIL_LAKE, broken_riser_cover),
    "scum-and-sludge": (CATTAIL_LAKE, scum_and_sludge),
    "level-after-test": (CATTAIL_LAKE, level_after_test),
    "pump-chamber-high": (CATTAIL_LAKE, pump_chamber_high),
    "mound-toe": (CATTAIL_LAKE, mound_toe),
}


def main(names: list[str]) -> int:
    """Draw every picture, or those whose names are given."""
    unknown = [name for name in names if name not in PICTURES]
    if unknown:
        print(f"No such picture: {', '.join(unknown)}.")
        print(f"The pictures are {', '.join(PICTURES)}.")
        return 1
    with ProcessPoolExecutor() as pool:
        for line in pool.map(draw, names or PICTURES):
            print(line, flush=True)
    return 0


def draw(name: str) -> str:
    """Draw one picture, write it, and tell its size."""
    folder, picture = PICTURES[name]
    return finish(picture(), folder / f"{name}.jpg")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
