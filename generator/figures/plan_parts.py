"""The house, the parts and the features on the site plan, with their names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from matplotlib.axes import Axes
from matplotlib.patches import Polygon

from generator.figures.labels import Labels, Spot
from generator.figures.plan_ground import View, middle_of
from generator.figures.plan_names import put_near, spots_around, word_color
from generator.figures.style import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    ORANGE,
    PALE_GREY,
    PALE_WATER,
    VERMILION,
    dots,
    stroke,
)
from generator.results.plan_gaps import XY
from generator.results.separation import DRINKING_WATER
from generator.results.site_plan import PART, SitePlan, Thing

# Our choice: how far a name may stand from its thing; from the second on a thin line
# leads to it.
REACHES_PT = (4.0, 15.0, 27.0, 40.0, 56.0)
SYMBOL_PT = 5.0


@dataclass(frozen=True)
class Look:
    """How a kind is drawn: edge, fill, hatch, line, and the mark of a mere point."""

    edge: str
    face: str = "none"
    hatch: str = ""
    line: str | tuple[float, tuple[float, ...]] = "-"
    mark: str = "o"
    width: float = 1.4


# Color never speaks alone: hatch, line and mark say the same again, and each thing
# bears its name.
LOOKS = {
    "tank": Look(BLUE, PALE_WATER, mark="s", width=1.8),
    "absorption area": Look(GREEN, "#E6F4EE", "////", mark="D"),
    "distribution box": Look(BLACK, "white", "xxx", mark="s"),
    "pump chamber": Look(ORANGE, "#FCF1DC", "|||", mark="h", width=1.8),
    "cesspool": Look(VERMILION, "#FAE6D9", "+++", mark="8", width=1.8),
    "seepage pit": Look(VERMILION, "#FAE6D9", "+++", mark="8", width=1.8),
}
PROPERTY = Look(BLACK, line=(0, (10, 3, 1.5, 3, 1.5, 3)), width=1.1)
WELL = Look(BLUE, "white", mark="o", width=1.6)
WATER = Look(BLUE, PALE_WATER, "---", mark="v")
TREE = Look(GREEN, "white", mark="P")
OTHER = Look(GREY, "#F3F3F3", "||", mark="^", width=1.1)
WATERS = (
    "surface water",
    "stream",
    "intermittent stream",
    "wild river",
    "scenic river",
    "recreational river",
    "wetland",
    "water supply reservoir",
    "tributary of a water supply",
    "wetland by a water supply",
    "vernal pool",
    "tidal line",
    "stormwater pond",
    "drainage channel",
    "irrigation canal",
)


def look_of(thing: Thing) -> Look:
    """Choose how a thing is drawn, by its kind."""
    if thing.role == PART:
        return LOOKS.get(thing.kind, OTHER)
    if thing.kind in DRINKING_WATER or thing.kind.endswith("well"):
        return WELL
    if thing.kind == "property line":
        return PROPERTY
    if thing.kind in WATERS:
        return WATER
    return TREE if thing.kind == "tree" else OTHER


def draw_house(axes: Axes, labels: Labels, plan: SitePlan) -> None:
    """Draw the outline of the house."""
    if not plan.house:
        return
    axes.add_artist(
        Polygon(
            plan.house,
            closed=len(plan.house) > 2,
            facecolor=PALE_GREY,
            edgecolor=BLACK,
            linewidth=1.8,
            label="house",
            zorder=2,
        )
    )
    _keep_off(axes, labels, [*plan.house, plan.house[0]])


def draw_thing(axes: Axes, labels: Labels, thing: Thing) -> None:
    """Draw one part or feature, to scale where it has a size."""
    look = look_of(thing)
    over = 4 if thing.role == PART else 1
    for border in thing.borders:
        axes.add_artist(
            Polygon(
                border,
                facecolor=look.face,
                edgecolor=look.edge,
                hatch=look.hatch,
                linewidth=look.width,
                label=thing.title,
                zorder=over,
            )
        )
        _keep_off(axes, labels, border)
    if not thing.borders and len(thing.line) > 1:
        xs, ys = zip(*thing.line, strict=True)
        stroke(
            axes,
            xs,
            ys,
            color=look.edge,
            linestyle=look.line,
            linewidth=look.width,
            label=thing.title,
            zorder=over,
        )
        _keep_off(axes, labels, thing.line)
    elif len(thing.line) == 1 and not (thing.borders and thing.role == PART):
        _symbol(axes, labels, thing, look)


def _symbol(axes: Axes, labels: Labels, thing: Thing, look: Look) -> None:
    (x, y) = thing.line[0]
    dots(
        axes,
        [x],
        [y],
        look.mark,
        markersize=2 * SYMBOL_PT,
        markerfacecolor="white" if look.face == "none" else look.face,
        markeredgecolor=look.edge,
        markeredgewidth=look.width,
        label=thing.title,
        zorder=5,
    )
    if look is WELL:
        dots(axes, [x], [y], "o", color=look.edge, markersize=3, zorder=5.1)
    labels.keep_clear(axes, x, y, SYMBOL_PT)


def _keep_off(axes: Axes, labels: Labels, outline: Sequence[XY]) -> None:
    labels.keep_off(axes, [x for x, _ in outline], [y for _, y in outline])


def name_house(axes: Axes, labels: Labels, plan: SitePlan, view: View) -> bool:
    """Name the house, inside it where there is room."""
    if not plan.house:
        return True
    ring = (*plan.house, plan.house[0])
    return _name(axes, labels, "house", ring, view, BLACK, inside=True)


def name_thing(axes: Axes, labels: Labels, thing: Thing, view: View) -> bool:
    """Name a thing beside it, or farther off with a line; False without any room."""
    outline = thing.borders[0] if thing.borders else thing.line
    look = look_of(thing)
    large = bool(thing.borders) and thing.role != PART
    color = word_color(look.edge)
    return _name(axes, labels, thing.title, outline, view, color, inside=large)


def _name(
    axes: Axes,
    labels: Labels,
    words: str,
    outline: Sequence[XY],
    view: View,
    color: str,
    *,
    inside: bool,
) -> bool:
    within = [Spot(*middle_of(outline), "center", "center", (0, 0))] * inside
    found = labels.put_if_clear(axes, words, within, color, most_lines=0)
    if found is not None:
        return True
    near_pt = SYMBOL_PT if len(outline) == 1 else 0.0
    reaches = [near_pt + one for one in REACHES_PT]
    return put_near(
        axes, labels, words, partial(spots_around, outline, view), reaches, color
    )
