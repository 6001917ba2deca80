"""The check that any figure must pass, and the way to the builders."""

from __future__ import annotations

import sys
from collections.abc import Callable
from itertools import combinations
from pathlib import Path

import pytest
from matplotlib.figure import Figure

from generator.figures import style

sys.path.insert(0, str(Path(__file__).parent))

SMALLEST_PX_AT_358 = 11.0
ALLOWED_TOUCH_PX = 1.0


@pytest.fixture
def legible() -> Callable[[Figure], None]:
    """Give the check that no label is cut off, too small, or over another."""

    def check(figure: Figure) -> None:
        from figure_builders import shown_text  # found through the path above

        boxes = shown_text(figure)
        assert boxes
        page = figure.bbox
        per_pt = 358 / (style.WIDTH_IN * 72)
        for text, box in boxes:
            assert text.get_fontsize() * per_pt >= SMALLEST_PX_AT_358, text
            assert box.x0 >= -1, text
            assert box.y0 >= -1, text
            assert box.x1 <= page.x1 + 1, text
            assert box.y1 <= page.y1 + 1, text
        for (one, box), (other, another) in combinations(boxes, 2):
            wide = min(box.x1, another.x1) - max(box.x0, another.x0)
            tall = min(box.y1, another.y1) - max(box.y0, another.y0)
            assert min(wide, tall) <= ALLOWED_TOUCH_PX, (one, other)

    return check
