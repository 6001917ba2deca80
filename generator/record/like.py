"""What a second visit, or one to a like system, takes over from an earlier file."""

from __future__ import annotations

from typing import Any

_ON_PLAN = ("on_plan", "outline", "reach")
_INSIDE = ("shape", "length", "width", "diameter", "gallons", "liquid_depth")
_POINT = (
    "name", "what", "ties", "side", "from", "toward", "along", "out", "bearing",
    "distance", "run", "at", "by", "give_or_take", "note",
)  # fmt: skip

# Keys that stay true from visit to visit. All else was of the day, or of the client.
KEPT: dict[str, tuple[str, ...]] = {
    "": (
        "demonstration", "property", "datum", "places", "depths", "tanks",
        "distribution_box", "pump_chamber", "absorption_areas", "cesspool", "features",
        "pipe_runs",
    ),
    "property": (
        "address", "place", "code", "authority", "bedrooms", "built", "water_supply",
        "system",
    ),
    "datum": ("points", "bearing", "house"),
    "datum.points": _POINT,
    "places": _POINT,
    "depths": (
        "to", "invert_at_wall", "run", "pitch", "ground_falls", "ground_rises",
        "top_above_invert",
    ),
    "tanks": (
        "name", "kind", "material", *_INSIDE, "inside_height", "compartments",
        "inlet_above_outlet", "measured_by", "outlet_device", *_ON_PLAN,
    ),
    "tanks.compartments": ("name", "length", "gallons"),
    "distribution_box": _ON_PLAN,
    "pump_chamber": (
        *_INSIDE, "inside_height", "measured_by", "read_from", "inlet", "drain_back",
        *_ON_PLAN,
    ),
    "absorption_areas": (
        "name", "kind", "length", "width", "count", "stone_depth", "void_share", "soil",
        "percolation", "loading", "loading_from", "measured_by", *_ON_PLAN,
    ),
    "cesspool": (
        "kind", "walls", "diameter", "length", "width", "measured_by", "inlet_down",
        "floor_down", "overflow", *_ON_PLAN,
    ),
    "features": ("name", "kind", "note", *_ON_PLAN),
    "pipe_runs": (
        "name", "from", "bore", "material", "slope", "roughness", "roughness_from",
        "length", "perforated_from", "on_plan",
    ),
}  # fmt: skip


def kept(data: dict[str, Any]) -> dict[str, Any]:
    """Take over what stays true of a lot and its system.

    Parameters
    ----------
    data : dict
        The plain data of the earlier file, its one-line entries written out.

    Returns
    -------
    dict
        The same without the client, the visit, and everything that was of that day.

    Examples
    --------
    >>> kept({"tanks": [{"name": "tank", "sludge": "11 in"}], "findings": []})
    {'tanks': [{'name': 'tank'}]}
    """
    return _group(data, "")


def _group(found: dict[str, Any], path: str) -> dict[str, Any]:
    taken = {
        key: _value(found[key], f"{path}.{key}".strip("."))
        for key in found
        if key in KEPT[path]
    }
    return {key: value for key, value in taken.items() if value not in (None, [], {})}


def _value(found: Any, path: str) -> Any:
    """Take over a value; a group of keys only where the table knows its keys."""
    if isinstance(found, list):
        taken = [_value(one, path) for one in found]
        return [one for one in taken if one not in (None, [], {})]
    if isinstance(found, dict):
        return _group(found, path) if path in KEPT else None
    return found
