"""Figures written as small SVG: whole units, each letter once, one look for a run.

Matplotlib's own writer wraps every thing in a group, gives each letter a line of its
own and six places to every length: three times the bytes and twice the time of this.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

import numpy as np
from matplotlib.backend_bases import GraphicsContextBase, RendererBase
from matplotlib.colors import to_hex, to_rgba
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.transforms import Affine2D, Transform

from generator.figures.lettering import Lettering, Line, measured, set_in, size_of
from generator.figures.svg_paths import outline

Color = Sequence[float]
Look = dict[str, str]

PT_PER_IN = 72
UNITS = 100  # of a point: 4 µm, finer than any paper or screen; our choice
HATCH = 72 * UNITS  # side of the tile of a hatch, as Matplotlib's own writer has it
OPAQUE_AT = 3  # place of the opacity in a color
CAPS = {"projecting": "square"}  # the others are called the same in SVG
ALONE = "opacity"  # of a run it would count once for all, and things lie on another
ROOT = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="{}pt" height="{}pt" '
    'viewBox="0 0 {} {}" stroke-linejoin="round" {}>\n'
)


@dataclass(frozen=True)
class Shape:
    """One path, and how it looks."""

    outline: str
    look: Look


def lean_svg(figure: Figure, *, named: str, inside: str) -> str:
    """Write a figure as SVG.

    Parameters
    ----------
    figure : matplotlib.figure.Figure
        The figure; its resolution is the same afterwards.
    named : str
        Attributes of the outermost element.
    inside : str
        What comes first inside it, such as the title.

    Returns
    -------
    str
        The whole file.

    Raises
    ------
    NotImplementedError
        If the figure holds a picture or formulas, which no figure of ours does.

    Notes
    -----
    Ids are unique within one file, so a page shows it as a picture of its own.
    """
    before = figure.dpi
    width, height = (float(side) * PT_PER_IN for side in figure.get_size_inches())
    writer = LeanSvg(width, height)
    figure.set_dpi(PT_PER_IN)
    try:
        figure.draw(writer)
    finally:
        figure.set_dpi(before)
    sizes = (f"{width:g}", f"{height:g}", _units(width), _units(height))
    return f"{ROOT.format(*sizes, named)}{inside}{writer.written()}</svg>\n"


class LeanSvg(RendererBase):
    """Takes what a figure draws.

    Parameters
    ----------
    width, height : float
        Size of the figure. [pt]
    """

    def __init__(self, width: float, height: float) -> None:
        super().__init__()
        self.size = (width, height)
        self.drawn: list[Shape | Line] = []
        self.lettering = Lettering()
        self.defined: dict[str, str] = {}
        self._page = (0.0, 0.0, width * UNITS, height * UNITS)
        self._down = Affine2D().scale(UNITS, -UNITS).translate(0.0, height * UNITS)

    def written(self) -> str:
        """Give all that was drawn, behind what it uses by name."""
        words = list(self.lettering.share())
        drawn = "".join(self._runs())
        named = [one.format(id=name) for one, name in self.defined.items()]
        defined = "".join([*named, *self.lettering.outlines(), *words])
        return f"<defs>\n{defined}</defs>\n{drawn}"

    def flipy(self) -> bool:
        """Tell that lengths count downward."""
        return True

    def get_canvas_width_height(self) -> tuple[float, float]:
        """Give the size of the figure. [pt]"""
        return self.size

    def get_text_width_height_descent(
        self, s: str, prop: FontProperties, ismath: object
    ) -> tuple[float, float, float]:
        """Measure words. [pt]"""
        return measured(s, prop.copy())

    def draw_path(
        self,
        gc: GraphicsContextBase,
        path: Path,
        transform: Transform,
        rgbFace: Any = None,  # noqa: N803  # as Matplotlib calls it
    ) -> None:
        """Take one shape."""
        open_line = rgbFace is None and gc.get_hatch_path() is None
        clean = path.cleaned(
            transform=transform + self._down,
            remove_nans=True,
            clip=self._page if open_line else None,
            simplify=open_line and path.should_simplify,
            curves=True,
        )
        look = self._fill(gc, rgbFace) | _stroke(gc) | self._clip(gc)
        self.drawn.append(Shape(outline(clean.vertices, clean.codes), look))

    def draw_text(
        self,
        gc: GraphicsContextBase,
        x: float,
        y: float,
        s: str,
        prop: FontProperties,
        angle: float,
        ismath: object = False,
        mtext: object = None,
    ) -> None:
        """Take one line of words."""
        if ismath:
            raise NotImplementedError("a formula in a figure")
        unit = size_of(prop) * UNITS
        along, across = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        turned = (unit * along, -unit * across, -unit * across, -unit * along)
        matrix = " ".join(
            [*(f"{one + 0.0:.4g}" for one in turned), _units(x), _units(y)]
        )
        opaque = gc.get_alpha() if gc.get_forced_alpha() else gc.get_rgb()[OPAQUE_AT]
        look = {
            "transform": f"matrix({matrix})",
            "fill": _color(gc.get_rgb(), "#000"),
            "opacity": _share(opaque),
        }
        clip = self._clip(gc)  # not on the same element: it would be turned as well
        line = Line(_attributes(look), set_in(s, prop), _attributes(clip))
        self.lettering.lines.append(line)
        self.drawn.append(line)

    def draw_image(self, *_: object) -> None:
        """Refuse a picture."""
        raise NotImplementedError("a picture in a figure")

    def _runs(self) -> Iterator[str]:
        """Write shapes that look the same and follow each other under one look."""
        for look, group in groupby(self.drawn, lambda one: getattr(one, "look", None)):
            run = list(group)
            shared = look if len(run) > 1 and look and ALONE not in look else None
            if shared:
                yield f"<g{_attributes(shared)}>\n"
            for one in run:
                if isinstance(one, Line):
                    yield self.lettering.written(one)
                else:
                    own = "" if shared else _attributes(one.look)
                    yield f'<path d="{one.outline}"{own}/>\n'
            if shared:
                yield "</g>\n"

    def _fill(self, gc: GraphicsContextBase, face: Color | None) -> Look:
        opacity = ""
        if face is not None and len(face) > OPAQUE_AT and not gc.get_forced_alpha():
            opacity = _share(face[OPAQUE_AT])
        if gc.get_hatch() is not None:
            fill = f"url(#{self._hatch(gc, face)})"
        else:
            fill = "none" if face is None else _color(face, "#000")
        return _said({"fill": fill, "fill-opacity": opacity})

    def _hatch(self, gc: GraphicsContextBase, face: Color | None) -> str:
        tile = Affine2D().scale(HATCH, -HATCH).translate(0.0, HATCH)
        drawn = gc.get_hatch_path().transformed(tile)
        ink = _color(gc.get_hatch_color(), "")
        look = {
            "fill": ink,
            "stroke": ink,
            "stroke-opacity": _share(to_rgba(gc.get_hatch_color())[OPAQUE_AT]),
            "stroke-width": _units(gc.get_hatch_linewidth()),
            "stroke-linejoin": "miter",
        }
        side = f'width="{HATCH}" height="{HATCH}"'
        ground = "none" if face is None else _color(face, "")
        return self._name(
            "h",
            f'<pattern id="{{id}}" patternUnits="userSpaceOnUse" {side}>'
            f'<rect {side} fill="{ground}"/>'
            f'<path d="{outline(drawn.vertices, drawn.codes)}"{_attributes(look)}/>'
            "</pattern>\n",
        )

    def _clip(self, gc: GraphicsContextBase) -> Look:
        path: Any  # the stubs tell another kind than what comes
        path, transform = gc.get_clip_path()
        frame = gc.get_clip_rectangle()
        if path is not None and transform is not None:
            cut = path.transformed(transform + self._down)
        elif frame is not None:
            corners = [(frame.x0, frame.y0), (frame.x1, frame.y0), (frame.x1, frame.y1)]
            cut = Path([*corners, (frame.x0, frame.y1)]).transformed(self._down)
        else:
            return {}
        shape = f'<path d="{outline(cut.vertices, cut.codes)}"/>'
        name = self._name("c", f'<clipPath id="{{id}}">{shape}</clipPath>\n')
        return {"clip-path": f"url(#{name})"}

    def _name(self, kind: str, element: str) -> str:
        """Name what is used by reference, and define it once."""
        return self.defined.setdefault(element, f"{kind}{len(self.defined)}")


def _stroke(gc: GraphicsContextBase) -> Look:
    forced = gc.get_forced_alpha()
    look = {"opacity": _share(gc.get_alpha()) if forced else ""}
    width = gc.get_linewidth()
    if not width:
        return _said(look)
    offset, dashes = gc.get_dashes()
    dashes = np.asarray([] if dashes is None else dashes).tolist()
    color = gc.get_rgb()
    join, cap = gc.get_joinstyle(), gc.get_capstyle()
    return _said(
        look
        | {
            "stroke": _color(color, ""),
            "stroke-opacity": "" if forced else _share(color[OPAQUE_AT]),
            "stroke-width": _units(width),
            "stroke-dasharray": " ".join(map(_units, dashes)),
            "stroke-dashoffset": _units(offset) if dashes and offset else "",
            "stroke-linejoin": "" if join == "round" else str(join),
            "stroke-linecap": "" if cap == "butt" else CAPS.get(cap, str(cap)),
        }
    )


def _said(look: Look) -> Look:
    """Leave out what SVG takes anyway."""
    return {name: value for name, value in look.items() if value}


def _attributes(look: Look) -> str:
    return "".join(f' {name}="{value}"' for name, value in _said(look).items())


def _color(color: Any, usual: str) -> str:
    """Write a color; nothing where it is the one that SVG takes anyway."""
    written = to_hex(color)
    if written[1::2] == written[2::2]:
        written = f"#{written[1::2]}"
    return "" if written == usual else written


def _share(opacity: float) -> str:
    return "" if opacity == 1 else f"{opacity:g}"


def _units(length: float) -> str:
    return f"{round(float(length) * UNITS)}"
