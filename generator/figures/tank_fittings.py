"""What hangs at a tank's pipes: inlet and outlet baffle or tee."""

from __future__ import annotations

from matplotlib.axes import Axes

from generator.figures.labels import Labels, Spot
from generator.figures.style import (
    BLACK,
    GREY,
    block,
)
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.rounding import said

# Our choice, for the drawing alone: where a fitting stands, how thick it is, how far
# it goes up, and how far down where that was not measured. [in]
STANDS_OFF_IN, PLATE_IN, TEE_IN = 6.0, 1.5, 4.0
REACHES_UP_IN, DEPTH_UNKNOWN_IN = 6.0, 12.0
ABSENT = {"none", None}


def draw_fittings(axes: Axes, labels: Labels, tank: Tank, length_in: float) -> None:
    """Draw the inlet and the outlet fitting, and the rise from outlet to inlet."""
    rise = tank.inlet_above_outlet.inches if tank.inlet_above_outlet else 0.0
    reach = min(STANDS_OFF_IN, 0.08 * length_in)
    if tank.inlet_device_state not in {"missing", "not seen", None}:
        _plate(axes, reach, rise, -DEPTH_UNKNOWN_IN, known=False, name="inlet fitting")
    if tank.outlet_device in ABSENT or tank.kind == HOLDING_TANK:
        return
    kind = str(tank.outlet_device)
    x = length_in - reach - _thick(kind)
    if tank.outlet_device_state == "missing":
        label = [Spot(x, -4, "right", "top", (-3, -3))]
        labels.put(axes, f"{kind} missing", label)
        return
    known = tank.outlet_device_depth
    depth = known.inches if known else DEPTH_UNKNOWN_IN
    _plate(
        axes,
        x,
        0.0,
        -depth,
        known=known is not None,
        name="outlet fitting",
        wide=_thick(kind),
    )
    labels.keep_off(axes, (x, x), (-depth, REACHES_UP_IN))
    _depth(axes, labels, kind, x, depth, length_in, known=known is not None)


def fittings_said(tank: Tank) -> str:
    """Say in one sentence how the outlet fitting and the inlet stand."""
    if tank.kind == HOLDING_TANK:
        return _inlet_of_holding(tank)
    inlet = (
        f"the inlet lies {said(tank.inlet_above_outlet.inches, 'in')} above the outlet"
        if tank.inlet_above_outlet
        else "the height of the inlet over the outlet was not measured"
    )
    if tank.outlet_device in ABSENT:
        return f"No outlet baffle or tee is drawn; {inlet}."
    if tank.outlet_device_state == "missing":
        return f"The outlet {tank.outlet_device} is missing; {inlet}."
    depth = tank.outlet_device_depth
    reach = (
        f"reaches {said(depth.inches, 'in')} below the outlet"
        if depth
        else "is drawn to no measured depth"
    )
    return f"The outlet {tank.outlet_device} {reach}; {inlet}."


def _inlet_of_holding(tank: Tank) -> str:
    if tank.inlet_above_outlet is None:
        return "The height of the inlet was not measured."
    rise = said(tank.inlet_above_outlet.inches, "in")
    return f"The inlet lies {rise} above the level when full."


def _thick(kind: str) -> float:
    return TEE_IN if kind == "tee" else PLATE_IN


def _plate(
    axes: Axes,
    x: float,
    at: float,
    bottom: float,
    *,
    known: bool,
    name: str,
    wide: float = PLATE_IN,
) -> None:
    block(
        axes,
        (x, bottom),
        (wide, at + REACHES_UP_IN - bottom),
        facecolor="white",
        edgecolor=BLACK if known else GREY,
        linestyle="-" if known else "--",
        linewidth=1.4 if known else 1.0,
        label=name,
        zorder=4,
    )


def _depth(
    axes: Axes,
    labels: Labels,
    kind: str,
    x: float,
    depth: float,
    wall: float,
    *,
    known: bool,
) -> None:
    if not known:
        labels.put(
            axes,
            f"{kind}, depth not measured",
            [Spot(x, -depth, "right", "center", (-4, 0))],
        )
        return
    axes.annotate(
        "",
        (x - 3, 0),
        (x - 3, -depth),
        zorder=7,
        arrowprops={
            "arrowstyle": "<|-|>",
            "color": BLACK,
            "linewidth": 1.1,
            "shrinkA": 0,
            "shrinkB": 0,
            "mutation_scale": 7,
        },
    )
    spots = [
        Spot(x - 3, -depth * share, "right", "center", (-4, 0))
        for share in (0.7, 0.5, 0.9)
    ]
    spots.append(Spot(x - 3, -depth, "right", "top", (-4, -4)))  # of one that is short
    spots.append(Spot(wall, -depth, "right", "top", (-2, -4)))  # in a short compartment
    labels.put(axes, f"{kind} {said(depth, 'in')}", spots)
