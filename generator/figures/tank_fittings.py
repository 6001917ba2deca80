"""What hangs at a tank's pipes: inlet and outlet baffle or tee, and its state."""

from __future__ import annotations

from matplotlib.axes import Axes

from generator.figures.labels import Labels, Spot
from generator.figures.style import arrow
from generator.figures.tank_device_shapes import Device, draw_baffle, draw_tee
from generator.figures.tank_outline import Inside
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.rounding import said

# Our choice, for the drawing alone: where a fitting stands, how thick it is, how far
# it goes up, and how far down where that was not measured. [in]
STANDS_OFF_IN, PLATE_IN, TEE_IN = 6.0, 1.5, 4.0
REACHES_UP_IN, DEPTH_UNKNOWN_IN = 6.0, 12.0
ABSENT = {"none", None}
SPOILED = ("worn", "damaged")  # drawn with a broken outline
TOLD = (*SPOILED, "missing", "not seen")  # states that are written out
NO_DEVICE, NO_INLET_DEVICE = "no outlet device", "no inlet device"


def draw_fittings(axes: Axes, labels: Labels, tank: Tank, inside: Inside) -> None:
    """Draw the inlet and the outlet fitting as they were found."""
    reach = min(STANDS_OFF_IN, 0.08 * inside.length)
    _inlet(axes, tank, inside, reach)
    if tank.kind == HOLDING_TANK:
        return
    if _no_device(tank):
        spots = [
            Spot(inside.length, low, "right", "top", (-4, -4)) for low in (0, -4, -8)
        ]
        labels.put(axes, NO_DEVICE, spots)
        return
    if _device(tank):
        _outlet(axes, labels, tank, inside, reach)


def inlet_notes(tank: Tank) -> list[str]:
    """List what is to be written of the inlet: its height, the state of its device."""
    notes = []
    if tank.inlet_above_outlet is None:
        notes.append("inlet, height not measured")
    state = tank.inlet_device_state
    if state == "missing":
        notes.append(NO_INLET_DEVICE)
    elif state in SPOILED:
        notes.append(f"inlet device {state}")
    return notes


def fittings_said(tank: Tank) -> str:
    """Say how the outlet fitting and the inlet stand, and what is wrong with them."""
    if tank.kind == HOLDING_TANK:
        return _inlet_of_holding(tank) + _inlet_device_said(tank)
    inlet = (
        f"the inlet lies {said(tank.inlet_above_outlet.inches, 'in')} above the outlet"
        if tank.inlet_above_outlet
        else "the height of the inlet over the outlet was not measured"
    )
    return f"{_outlet_said(tank)}; {inlet}.{_inlet_device_said(tank)}"


def _device(tank: Tank) -> str:
    """Name the outlet device; of one that is not named, as far as it was seen."""
    if tank.outlet_device not in ABSENT:
        return str(tank.outlet_device)
    seen = tank.outlet_device is None and tank.outlet_device_state in SPOILED
    return "baffle or tee" if seen else ""


def _no_device(tank: Tank) -> bool:
    return tank.outlet_device == "none" or tank.outlet_device_state == "missing"


def _outlet_said(tank: Tank) -> str:
    state = tank.outlet_device_state
    if tank.outlet_device == "none":
        return "There is no outlet baffle or tee"
    if state == "missing":
        return f"The outlet {tank.outlet_device or 'baffle or tee'} is missing"
    kind, depth = _device(tank), tank.outlet_device_depth
    if not kind:
        return "No outlet baffle or tee is drawn"
    reach = (
        f"reaches {said(depth.inches, 'in')} below the outlet"
        if depth
        else "is drawn to no measured depth"
    )
    told = f", {state}," if state in TOLD else ""
    return f"The outlet {kind}{told} {reach}"


def _inlet_device_said(tank: Tank) -> str:
    state = tank.inlet_device_state
    if state not in TOLD:
        return ""
    verb = "was" if state == "not seen" else "is"
    return f" The inlet device {verb} {state}."


def _inlet_of_holding(tank: Tank) -> str:
    if tank.inlet_above_outlet is None:
        return "The height of the inlet was not measured."
    rise = said(tank.inlet_above_outlet.inches, "in")
    return f"The inlet lies {rise} above the level when full."


def _inlet(axes: Axes, tank: Tank, inside: Inside, reach: float) -> None:
    """Draw the inlet device, whose depth nobody measures."""
    state = tank.inlet_device_state
    if state in {"missing", "not seen", None}:
        return
    rise = tank.inlet_above_outlet.inches if tank.inlet_above_outlet else 0.0
    device = Device(
        "inlet fitting",
        reach,
        PLATE_IN,
        -DEPTH_UNKNOWN_IN,
        min(rise + REACHES_UP_IN, inside.top),
        known=False,
        spoiled=state in SPOILED,
    )
    draw_baffle(axes, device)


def _outlet(
    axes: Axes, labels: Labels, tank: Tank, inside: Inside, reach: float
) -> None:
    measured, tee = tank.outlet_device_depth, tank.outlet_device == "tee"
    wide = TEE_IN if tee else PLATE_IN
    device = Device(
        "outlet fitting",
        inside.length - reach - wide,
        wide,
        -(measured.inches if measured else DEPTH_UNKNOWN_IN),
        min(REACHES_UP_IN, inside.top),
        known=measured is not None,
        spoiled=tank.outlet_device_state in SPOILED,
    )
    if tee:
        draw_tee(axes, device, inside)
    else:
        draw_baffle(axes, device)
    x = device.left
    labels.keep_off(axes, (x, x), (device.bottom, device.top))
    _depth(axes, labels, tank, device, inside.length)


def _depth(axes: Axes, labels: Labels, tank: Tank, device: Device, wall: float) -> None:
    """Draw how far the device reaches below the outlet, and write its state."""
    state = tank.outlet_device_state
    told = f", {state}" if state in TOLD else ""
    x, low, kind = device.left, device.bottom, _device(tank)
    if not device.known:
        words = f"{kind}{told},\ndepth not measured" if told else None
        spot = Spot(x, low, "right", "center", (-4, 0))
        labels.put(axes, words or f"{kind}, depth not measured", [spot])
        return
    arrow(axes, x - 3, low, 0)
    spots = [
        Spot(x - 3, low * share, "right", "center", (-4, 0))
        for share in (0.7, 0.5, 0.9)
    ]
    spots.append(Spot(x - 3, low, "right", "top", (-4, -4)))  # of one that is short
    spots.append(Spot(wall, low, "right", "top", (-2, -4)))  # in a short compartment
    if tank.compartments:  # a short one has no room for so long a line
        told = told.replace(", ", ",\n")
    labels.put(axes, f"{kind} {said(-low, 'in')}{told}", spots)
