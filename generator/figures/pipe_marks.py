"""Symbols of what a camera saw, and their words in rows above the pipe."""

from __future__ import annotations

from dataclasses import dataclass
from math import nan

from matplotlib.axes import Axes

from generator.figures.labels import Labels, Spot
from generator.figures.style import (
    BLACK,
    GREEN,
    GREY,
    ORANGE,
    VERMILION,
    block,
    dots,
    share_of_width,
    stroke,
)
from generator.record.pipes import LogEntry, PipeRun
from generator.results.rounding import said

# Symbols; a joint, a blockage and a stretch are drawn instead.
SYMBOLS = {
    "offset joint": ("d", VERMILION),
    "crack": ("x", BLACK),
    "roots": ("*", GREEN),
    "scale": ("^", ORANGE),
    "deposit": ("v", ORANGE),
    "sag": ("_", BLACK),
    "camera under water": ("o", "white"),
    "end": ("|", BLACK),
}
UNMARKED = {"clear"}
MOST_PLACES = 4  # more places than these are counted, not listed; our choice
PLUG_SHARE = 0.02
SYMBOL_PT, SYMBOL_AT, BRACKET = 8.0, 0.8, 1.07
SYMBOLS_ON_STRETCH = {"crack", "roots", "scale", "deposit", "offset joint"}
ROW_PT, FIRST_ROW_PT, ROWS = 15.0, 12.0, 16


@dataclass(frozen=True)
class Mark:
    """One kind of sight: where it was seen and in which words. [ft]

    ``open_in`` is the bore that it left open, where that was judged. [in]
    """

    see: str
    places: tuple[tuple[float, float | None], ...]
    open_in: float | None = None

    @property
    def words(self) -> str:
        """Name the sight, its places and what it left open."""
        left = "" if self.open_in is None else f", {said(self.open_in, 'in')} open"
        return f"{self._placed}{left}"

    @property
    def _placed(self) -> str:
        at = " at" if all(to is None for _, to in self.places) else ""
        many = {"joint": "joints", "crack": "cracks", "offset joint": "offset joints"}
        if len(self.places) == 1:
            return f"{self.see}{at} {place_said(self.places[0], 'ft')}"
        name = many.get(self.see, self.see)
        if len(self.places) > MOST_PLACES:
            return f"{name}: {len(self.places)} places"
        *most, last = (place_said(one, "") for one in self.places)
        return f"{name}{at} {', '.join(most)} and {last} ft"


def marks(run: PipeRun) -> list[Mark]:
    """Gather what was seen, kind by kind, in order of distance."""
    places: dict[tuple[str, float | None], list[tuple[float, float | None]]] = {}
    for entry in run.log:
        if entry.see in UNMARKED or entry.see == "perforations":
            continue
        left = entry.opening.inches if entry.opening else None
        places.setdefault((entry.see, left), []).append(stretch_ft(entry))
    return [Mark(see, tuple(found), left) for (see, left), found in places.items()]


def perforated_from_ft(run: PipeRun) -> float | None:
    """Give where the perforations begin: the nearer of camera and record. [ft]"""
    holes = [entry.distance.feet for entry in run.log if entry.see == "perforations"]
    if run.perforated_from:
        holes.append(run.perforated_from.feet)
    return min(holes, default=None)


def draw_marks(axes: Axes, labels: Labels, run: PipeRun) -> None:
    """Draw the symbol of every sight. [ft], [in]"""
    for mark in marks(run):
        if mark.see == "joint":
            _joints(axes, [at for at, _ in mark.places], run.bore.inches)
        for at, to in mark.places:
            if to is not None:
                _bracket(axes, mark.see, at, to, run.bore.inches)
            if mark.see == "blockage":
                _plug(axes, at, to, run.bore.inches)
            elif mark.see != "joint" and (to is None or mark.see in SYMBOLS_ON_STRETCH):
                x = at if to is None else (at + to) / 2
                _symbol(axes, labels, mark.see, x, SYMBOL_AT * run.bore.inches)


def _bracket(axes: Axes, see: str, at: float, to: float, bore: float) -> None:
    heights = [bore * share for share in (0.95, BRACKET, BRACKET, 0.95)]
    name = f"{see} stretch"
    stroke(axes, (at, at, to, to), heights, color=BLACK, linewidth=1.6, label=name)


def _plug(axes: Axes, at: float, to: float | None, bore: float) -> None:
    left, right = axes.get_xlim()
    end = to if to is not None else at + PLUG_SHARE * (right - left)
    block(
        axes,
        (at, 0),
        (end - at, bore),
        facecolor="#B08D57",
        edgecolor=BLACK,
        hatch="xxxx",
        label="blockage",
        zorder=6,
        clip_on=False,
    )


def _joints(axes: Axes, places: list[float], bore: float) -> None:
    """Draw every joint in one line with gaps."""
    xs = [x for at in places for x in (at, at, nan, at, at, nan)]
    ys = [bore * y for _ in places for y in (0.0, 0.16, nan, 0.84, 1.0, nan)]
    stroke(axes, xs, ys, color=BLACK, linewidth=1.6, zorder=6, label="joint")


def _symbol(axes: Axes, labels: Labels, see: str, x: float, y: float) -> None:
    shape, color = SYMBOLS.get(see, ("s", GREY))
    dots(
        axes,
        [x],
        [y],
        shape,
        color=color,
        markersize=SYMBOL_PT,
        markeredgecolor=BLACK,
        zorder=7,
        clip_on=False,
        label=see,
    )
    labels.keep_clear(axes, x, y, SYMBOL_PT / 2 + 1)


def name_marks(
    axes: Axes, labels: Labels, run: PipeRun, extra: list[tuple[float, str]]
) -> float:
    """Write the words in rows above the pipe, each with a line down to its place.

    Parameters
    ----------
    axes, labels, run
        Where to write, and what. [ft]
    extra : list of (float, str)
        More places to name, each with its words. [ft]

    Returns
    -------
    float
        Height of the rows that were needed. [pt]
    """
    bore, used = run.bore.inches, 0.0
    named = [(at, at, words) for at, words in extra]
    for mark in marks(run):
        at, to = mark.places[0]
        named.append((at, at if to is None else to, mark.words))
    left, right = axes.get_xlim()

    def order(one: tuple[float, float, str]) -> tuple[bool, float, str]:
        """Put first what must hang to the left, left to right; the rest come back."""
        fits = one[0] / (right - left) + share_of_width(one[2]) <= 1
        return fits, -one[0] if fits else one[0], one[2]

    for at, to, words in sorted(named, key=order):
        x, top = (at + to) / 2, BRACKET * bore if to > at else bore
        label = labels.put(axes, words, _rows(axes, labels, x, bore))
        rise = float(label.get_position()[1])
        used = max(used, rise + ROW_PT)
        _leader(axes, labels, x, top, rise, bore)
    return used


def _leader(
    axes: Axes, labels: Labels, x: float, top: float, rise_pt: float, bore: float
) -> None:
    """Draw the line from a label down to the pipe, and keep later labels off it."""
    pixels = axes.figure.dpi / 72
    foot = axes.transData.transform((x, bore))[1] + rise_pt * pixels
    high = float(axes.transData.inverted().transform((0, foot))[1])
    stroke(
        axes, (x, x), (top, high), color=GREY, linewidth=0.8, zorder=1, clip_on=False
    )
    labels.keep_off(axes, (x, x), (top, high))


def _rows(axes: Axes, labels: Labels, x: float, bore: float) -> list[Spot]:
    """List the places above the pipe, those first whose line cuts no label."""
    spots = [
        Spot(x, bore, across, "bottom", (shift, FIRST_ROW_PT + ROW_PT * row))
        for across, shift in (("left", -3.0), ("right", 3.0), ("center", 0.0))
        for row in range(ROWS)
    ]
    free = [one for one in spots if not labels.crosses(axes, x, bore, one.shift[1])]
    return free + [one for one in spots if one not in free]


def stretch_ft(entry: LogEntry) -> tuple[float, float | None]:
    """Give where a sight begins, and where it ends if it has a length. [ft]"""
    return entry.distance.feet, entry.to.feet if entry.to else None


def place_said(place: tuple[float, float | None], unit: str) -> str:
    """Say a place or a stretch of the run. [ft]"""
    at, to = place
    return said(at, unit) if to is None else f"{said(at, '')} to {said(to, unit)}"
