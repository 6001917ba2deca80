"""How deep to probe for the parts that have not been found yet."""

from __future__ import annotations

from collections.abc import Iterator

from generator.record.parts import Depth
from generator.results.depth import CANNOT_BE, depth_results
from generator.results.result import nominal
from generator.results.rounding import expanded_of


def depth_sums(depths: tuple[Depth, ...]) -> Iterator[str]:
    """Say between which depths each part should be hit.

    Parameters
    ----------
    depths : tuple of Depth
        The depths of the job; those already probed are left out. [in], [ft]
    """
    for depth in depths:
        if depth.probed is not None:
            continue
        [expected] = depth_results([depth])
        where = f"{depth.run.typed} from the wall"
        if expected.verdict == CANNOT_BE:
            yield f"Depth: by its pitch the {depth.to} would lie above ground {where}."
            continue
        middle, reach = nominal(expected.number), expanded_of(expected.number)
        low, high = max(0.0, middle - reach), middle + reach
        deep = f"{low:.0f} to {high:.0f} in below the ground"
        if depth.top_above_invert is None:
            yield (
                f"Depth: {where} the invert of the {depth.to} should lie {deep}; its "
                'top lies above that: give "top_above_invert" to be told where.'
            )
        else:
            yield f"Depth: {where} the top of the {depth.to} should be hit {deep}."
