"""What the trade also calls the words of a job file.

The other words are offered as the first choice of "Did you mean", and never read: one
word for one thing keeps two files comparable. Common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Collection

_FIELD = ("absorption area", "absorption_areas", "absorption_area")
_BOX = ("distribution box", "distribution_box")
_COVER = ("cover",)
_DEVICE = ("outlet_device",)
_LEVEL = ("liquid_depth",)
_NOT_SEEN = ("not seen", "not_seen")
_SURFACE = ("sewage on the surface", "sewage_on_ground")
_WELL = ("private well",)

ALSO_CALLED: dict[str, tuple[str, ...]] = {
    # yes and no
    "y": ("yes",),
    "yep": ("yes",),
    "true": ("yes",),
    "on": ("yes",),
    "n": ("no",),
    "nope": ("no",),
    "false": ("no",),
    "off": ("no",),
    # parts
    "drainfield": _FIELD,
    "drain field": _FIELD,
    "leach field": _FIELD,
    "leachfield": _FIELD,
    "leach bed": _FIELD,
    "leaching field": _FIELD,
    "disposal field": _FIELD,
    "absorption field": _FIELD,
    "soil absorption system": _FIELD,
    "soil treatment area": _FIELD,
    "sta": _FIELD,
    "field": _FIELD,
    "d box": _BOX,
    "dbox": _BOX,
    "db": _BOX,
    "lift station": ("pump chamber", "pump_chamber"),
    "dose tank": ("pump chamber", "pump_chamber"),
    "dosing tank": ("pump chamber", "pump_chamber"),
    "dosing chamber": ("pump chamber", "pump_chamber"),
    "pump pit": ("pump chamber", "pump_chamber"),
    "septic": ("septic tank", "tank", "tanks"),
    "septic tank": ("tank", "tanks"),
    "house sewer": ("building sewer",),
    "sewer line": ("building sewer",),
    "sewer": ("building sewer", "pipe_runs"),
    "outhouse": ("privy",),
    "atu": ("aerobic unit",),
    "aerobic treatment unit": ("aerobic unit",),
    "sewage pit": ("cesspool",),
    "leach pit": ("seepage pit",),
    "leaching pit": ("seepage pit",),
    "drywell": ("dry well",),
    # around them
    "well": _WELL,
    "drinking water well": _WELL,
    "drinking well": _WELL,
    "domestic well": _WELL,
    "water well": _WELL,
    "house well": _WELL,
    "city water": ("public water",),
    "town water": ("public water",),
    "municipal water": ("public water",),
    "municipal well": ("public well",),
    "house": ("building",),
    "home": ("building",),
    "dwelling": ("building",),
    "lot line": ("property line",),
    "boundary": ("property line",),
    "lake": ("surface water",),
    "pond": ("surface water",),
    "river": ("surface water",),
    "creek": ("stream",),
    "brook": ("stream",),
    "pool": ("swimming pool",),
    "french drain": ("groundwater drain", "other drain"),
    "curtain drain": ("groundwater drain", "other drain"),
    # shapes and materials
    "rectangular": ("box",),
    "rectangle": ("box",),
    "square": ("box",),
    "round": ("upright cylinder",),
    "cylinder": ("upright cylinder",),
    "vertical cylinder": ("upright cylinder",),
    "horizontal cylinder": ("lying cylinder",),
    "precast": ("concrete",),
    "cement": ("concrete",),
    "poly": ("plastic",),
    "polyethylene": ("plastic",),
    "fibreglass": ("fiberglass",),
    "metal": ("steel",),
    "orangeburg": ("bituminized fiber",),
    "bituminous fiber": ("bituminized fiber",),
    "trench": ("trenches",),
    # keys
    "time": ("at",),
    "when": ("at",),
    "reading": ("level",),
    "lid": _COVER,
    "lids": _COVER,
    "covers": _COVER,
    "manhole": _COVER,
    "lids back": ("covers_back",),
    "depth": _LEVEL,
    "water depth": _LEVEL,
    "operating depth": _LEVEL,
    "capacity": ("gallons",),
    "size": ("gallons",),
    "volume": ("gallons",),
    "effluent filter": _DEVICE,
    "filter": _DEVICE,
    "outlet baffle": ("outlet_device_state", "outlet_device"),
    "inlet baffle": ("inlet_device_state",),
    "pictures": ("photos",),
    "picture": ("photo",),
    "pics": ("photos",),
    "photographs": ("photos",),
    "notes": ("note",),
    "remark": ("note",),
    "comment": ("note",),
    "measurements": ("distances",),
    "setbacks": ("distances",),
    "permission": ("consent",),
    "water test": ("load_test",),
    "flow test": ("load_test",),
    "hydraulic load test": ("load_test",),
    "camera": ("pipe_runs",),
    "pipes": ("pipe_runs",),
    "not inspected": _NOT_SEEN,
    "not observed": _NOT_SEEN,
    "unseen": _NOT_SEEN,
    "garbage disposal": ("disposal_unit",),
    "garbage grinder": ("disposal_unit",),
    "disposer": ("disposal_unit",),
    "softener": ("treatment_drains_to_tank",),
    "water softener": ("treatment_drains_to_tank",),
    "occupants": ("people",),
    "residents": ("people",),
    "diameter": ("bore",),
    "license": ("license",),
    # how it was found
    "pacing": ("paced",),
    "paces": ("paced",),
    "steps": ("paced",),
    "measuring tape": ("tape",),
    "tape measure": ("tape",),
    "taped": ("tape",),
    "measuring wheel": ("wheel",),
    "wheeled": ("wheel",),
    "gps": ("phone",),
    "asbuilt": ("as-built",),
    "drawing": ("plan",),
    # what was seen
    "odor": ("odor",),
    "smell": ("odor",),
    "odors": ("odor",),
    "breakout": _SURFACE,
    "surfacing": _SURFACE,
    "effluent on ground": _SURFACE,
    "wet": ("wet_ground",),
    "good": ("sound",),
    "ok": ("sound",),
    "okay": ("sound",),
    "fine": ("sound",),
    "intact": ("sound",),
    "cracks": ("cracked", "crack"),
    "root": ("roots",),
    "belly": ("sag",),
    "dip": ("sag",),
    "offset": ("offset joint",),
    "works": ("runs",),
    "working": ("runs",),
    "wet soil": ("saturated",),
    "purchaser": ("buyer",),
    "homeowner": ("owner",),
    "realtor": ("agent",),
    "bank": ("lender",),
}


def known_as(word: str, known: Collection[str]) -> str:
    """Give what a word of the trade is called here; empty where it is not known.

    Examples
    --------
    >>> known_as("Leach field", ["tank", "absorption area"])
    'absorption area'
    >>> known_as("odor", ["tank"])
    ''
    """
    plain = " ".join(re.split(r"[\s_-]+", word.lower().strip()))
    targets = ALSO_CALLED.get(plain, ())
    return next((one for one in targets if one in known), "")
