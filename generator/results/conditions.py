"""What a job file answers to the conditions of a code, for one part and one feature."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.codes.packs import Pack
from generator.codes.when import Answers
from generator.record.model import Inspection
from generator.record.plan import Feature

# The most that a house is taken to be designed for, where the local code gives no flow
# that was read: no code at hand takes more for a bedroom (New Jersey, the first one,
# N.J.A.C. 7:9A-7.4), and none more for a small house than for two such bedrooms
# (Pennsylvania, 25 Pa. Code 73.17). It can say that a flow is small, never that one is
# large.
MOST_GPD_A_BEDROOM = 200.0
LEAST_BEDROOMS_COUNTED = 2
TIGHT = {"sound": "yes", "worn": "yes", "cracked": "no", "leaking": "no"}
TANK = "tank"
SLOPE_DIGITS = 6  # of a percent; our choice, so that 7 % typed is 7 and no more


@dataclass(frozen=True)
class Lot:
    """One lot and its code, asked for the conditions of rows."""

    inspection: Inspection
    code: Pack | None

    def answers(self, part: str, feature: str, name: str = "") -> Answers:
        """Answer for a pair of kinds; for a feature of one name where it is given.

        Several features of a kind answer only where all of them say the same, the
        casing by the least.
        """
        found = [
            one
            for one in self.inspection.features
            if one.kind == feature and name in ("", one.name)
        ]
        slope = self.inspection.property.ground_slope
        return Answers(
            lies=_same(found, "lies"),
            flows=_same(found, "flows"),
            piped=_same(found, "piped"),
            lined=_same(found, "lined"),
            watertight=self._watertight() if part == TANK else None,
            casing_ft=_least_casing(found),
            slope_percent=_percent(slope.ft_per_ft) if slope else None,
            flow_gpd=self._flow(),
            most_gpd=self._most(),
        )

    def _watertight(self) -> str | None:
        """Answer where all tanks are alike; a distance does not say which it means."""
        states = {TIGHT.get(one.structure or "") for one in self.inspection.tanks}
        return states.pop() if len(states) == 1 else None

    def _flow(self) -> float | None:
        """The design flow by the local code, where it was read there. [gal/day]"""
        bedrooms, code = self.inspection.property.bedrooms, self.code
        if not bedrooms or code is None or code.design_flow is None:
            return None
        gpd = code.gpd(bedrooms) if code.design_flow.seen == "yes" else None
        return None if gpd is None else float(gpd)

    def _most(self) -> float | None:
        """The most that so many bedrooms are given by any code at hand. [gal/day]"""
        bedrooms = self.inspection.property.bedrooms
        if not bedrooms:
            return None
        return max(bedrooms, LEAST_BEDROOMS_COUNTED) * MOST_GPD_A_BEDROOM


def _percent(ft_per_ft: float) -> float:
    return round(100 * ft_per_ft, SLOPE_DIGITS)


def _same(features: Sequence[Feature], key: str) -> str | None:
    found = {getattr(one, key) for one in features}
    return found.pop() if len(found) == 1 else None


def _least_casing(features: Sequence[Feature]) -> float | None:
    casings = [one.casing for one in features]
    known = [one.feet for one in casings if one is not None]
    return min(known) if known and len(known) == len(casings) else None
