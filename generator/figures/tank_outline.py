"""The empty tank on its sheet: walls, pipes and scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from generator.figures.bare_axes import bare_axes
from generator.figures.labels import Labels, Spot
from generator.figures.style import (
    BLACK,
    GREY,
    WIDTH_IN,
    block,
    new_figure,
)
from generator.quantity import Length
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.rounding import said

# Our choice, for the drawing alone: sizes that nobody measures or that the record
# may leave out. [in]
WALL_IN, STUB_IN, BORE_IN = 3.0, 13.0, 4.0
LENGTH_UNKNOWN_IN, HEADSPACE_IN = 84.0, 10.0
MARGIN_PT = {"left": 6.0, "right": 6.0, "top": 22.0, "bottom": 24.0}
TALLEST_PT = 330.0
LEAST_STUB_PT = 28.0  # of a pipe, so that its name fits under it
ROW_PT = 13.5  # of a line of words over or under the tank
PT = 72.0


@dataclass(frozen=True)
class Inside:
    """What is drawn: heights count from the outlet invert. [in]

    A holding tank has no outlet; its heights count from its level when full. ``level``
    is the top of the liquid, None where nobody read it.
    """

    length: float
    floor: float
    top: float
    top_known: bool
    plan_known: bool
    level: float | None = 0.0
    stub: float = STUB_IN


def inside_of(tank: Tank, levels_in: Sequence[float] = ()) -> Inside:
    """Take what is drawn from the record, with stand-ins for what it leaves out.

    ``levels_in`` are those of a load test, the start first: so the tank was found. [in]
    """
    depth = tank.liquid_depth.inches
    across = tank.diameter if tank.shape == "upright cylinder" else tank.length
    height: Length | None = tank.inside_height
    if tank.shape == "lying cylinder":
        height = tank.diameter
    level = _level(tank, levels_in)
    above = height.inches - depth if height else _over(tank, levels_in)
    long = across.inches if across else LENGTH_UNKNOWN_IN
    return Inside(
        long,
        -depth,
        max(above, level or 0.0, 0.0),
        height is not None,
        across is not None,
        level,
        _stub(long),
    )


def _over(tank: Tank, levels_in: Sequence[float]) -> float:
    """Stand in for the room over the outlet, so that all that stood there fits. [in]"""
    mark = tank.high_mark.inches if tank.high_mark else 0.0
    return max(HEADSPACE_IN, max(mark, *levels_in, 0.0) + WALL_IN)


def _level(tank: Tank, levels_in: Sequence[float]) -> float | None:
    if tank.kind != HOLDING_TANK:
        return levels_in[0] if levels_in else 0.0
    now = tank.liquid_now
    return None if now is None else now.inches - tank.liquid_depth.inches


def _stub(long: float) -> float:
    """Make the pipes of a long tank long enough to carry their names. [in]"""
    if _width_pt() / (long + 2 * (WALL_IN + STUB_IN)) * STUB_IN >= LEAST_STUB_PT:
        return STUB_IN
    return LEAST_STUB_PT * (long + 2 * WALL_IN) / (_width_pt() - 2 * LEAST_STUB_PT)


def _width_pt() -> float:
    return WIDTH_IN * PT - MARGIN_PT["left"] - MARGIN_PT["right"]


def new_sheet(
    inside: Inside, *, end_view: bool, rows_over: int = 0, rows_under: int = 0
) -> tuple[Figure, Axes, float]:
    """Size the sheet to the tank and the rows of words; give the scale too. [pt/in]"""
    wide = inside.length + 2 * (WALL_IN + inside.stub)
    tall = inside.top - inside.floor + 2 * WALL_IN
    width_pt = _width_pt()
    scale = min(width_pt / wide, TALLEST_PT / tall)
    top = MARGIN_PT["top"] + ROW_PT * max(rows_over - 1, 0)
    bottom = MARGIN_PT["bottom"] + ROW_PT * max(rows_under - 1, 0)
    first_pt = tall * scale + top + bottom
    second_pt = tall * scale + MARGIN_PT["top"] + MARGIN_PT["bottom"]
    whole_pt = first_pt + second_pt if end_view else first_pt
    floors = [whole_pt - first_pt + bottom, MARGIN_PT["bottom"]]
    figure = new_figure(whole_pt / PT)
    axes = [
        bare_axes(
            figure,
            (
                MARGIN_PT["left"] / (WIDTH_IN * PT),
                floor / whole_pt,
                width_pt / (WIDTH_IN * PT),
                tall * scale / whole_pt,
            ),
        )
        for floor in floors[: 2 if end_view else 1]
    ]
    for one in axes:
        spare = (width_pt / scale - inside.length) / 2
        one.set_xlim(-spare, inside.length + spare)
        one.set_ylim(inside.floor - WALL_IN, inside.top + WALL_IN)
        one.set_aspect("equal", adjustable="box")
    return figure, axes[0], scale


def draw_shell(axes: Axes, labels: Labels, tank: Tank, inside: Inside) -> None:
    """Draw the walls, the floor, the top and the pipes, and name the pipes."""
    tall, wall = inside.top - inside.floor, {"facecolor": GREY, "edgecolor": BLACK}
    for x in (-WALL_IN, inside.length):
        block(axes, (x, inside.floor), (WALL_IN, tall), **wall, linewidth=0.6)
    _inlet(axes, labels, tank, inside)
    if tank.kind != HOLDING_TANK:
        _pipe(axes, "outlet", inside.length, 0.0, inside.stub)
        right = inside.length + WALL_IN + inside.stub
        labels.put(axes, "outlet", [Spot(right, 0.0, "right", "top", (4, -3))])
    whole = inside.length + 2 * WALL_IN
    block(
        axes,
        (-WALL_IN, inside.floor - WALL_IN),
        (whole, WALL_IN),
        **wall,
        linewidth=0.6,
    )
    roof = wall if inside.top_known else {"facecolor": "white", "edgecolor": GREY}
    block(
        axes,
        (-WALL_IN, inside.top),
        (whole, WALL_IN),
        **roof,
        linewidth=0.8,
        linestyle="-" if inside.top_known else "--",
        label="top",
    )


def _inlet(axes: Axes, labels: Labels, tank: Tank, inside: Inside) -> None:
    rise = tank.inlet_above_outlet.inches if tank.inlet_above_outlet else 0.0
    guessed = tank.inlet_above_outlet is None
    _pipe(axes, "inlet", -WALL_IN - inside.stub, rise, inside.stub, guessed=guessed)
    words = f"inlet\n+{said(rise, 'in')}" if rise > 0 else "inlet"
    middle = -WALL_IN - inside.stub / 2
    labels.put(axes, words, [Spot(middle, rise, "center", "top", (0, -3))])


def _pipe(
    axes: Axes, side: str, x: float, low: float, stub: float, *, guessed: bool = False
) -> None:
    block(
        axes,
        (x, low),
        (stub + WALL_IN, BORE_IN),
        facecolor="white",
        edgecolor=GREY if guessed else BLACK,
        linewidth=1,
        linestyle="--" if guessed else "-",
        label=f"{side} pipe",
        zorder=3,
    )
