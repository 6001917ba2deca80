"""Axes of a drawing that has no scales, and so makes no ticks.

Matplotlib makes four ticks for any axes, and looks after them, though none is shown:
half of what empty axes cost.
"""

from __future__ import annotations

from typing import Any

from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.axis import XAxis, YAxis
from matplotlib.figure import Figure

from generator.figures.style import GREY

FRAME_PT = 0.8  # our choice


def bare_axes(
    figure: Figure, place: tuple[float, float, float, float], *, framed: bool = False
) -> Axes:
    """Add axes without scales to a figure.

    Parameters
    ----------
    figure : Figure
        The figure.
    place : tuple of float
        Left, low, width and height, in shares of the figure.
    framed : bool
        Whether they have a frame around them.

    Returns
    -------
    Axes
        Axes to be drawn on; their limits are to be set.
    """
    axes = figure.add_axes(_Bare(figure, place))
    if not framed:
        axes.set_axis_off()
        return axes
    for spine in axes.spines.values():
        spine.set_position(("outward", 0))  # else the first tick would see to it
        spine.set(visible=True, color=GREY, linewidth=FRAME_PT)
    return axes


class _WithoutTicks(Artist):
    """What an axis does for its ticks, left out."""

    def set_clip_path(self, path: Any, transform: Any = None) -> None:
        """Cut nothing off: nothing is drawn."""

    def set_tick_params(self, *_: object, **__: object) -> None:
        """Take no looks for ticks."""


class _BareX(_WithoutTicks, XAxis):
    """The scale across, which is not seen."""


class _BareY(_WithoutTicks, YAxis):
    """The scale upward, which is not seen."""


class _Bare(Axes):
    """Axes with a frame alone."""

    def _init_axis(self) -> None:
        """Put scales into the axes, as every projection of Matplotlib does."""
        self.xaxis, self.yaxis = _BareX(self, clear=False), _BareY(self, clear=False)
        self.xaxis.set_visible(False)
        self.yaxis.set_visible(False)
