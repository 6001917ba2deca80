"""All results on the solids of all tanks, in the order in which they are read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.codes.packs import Pack
from generator.record.model import Household
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.build_up import build_up_results
from generator.results.design_flow import DailyFlow
from generator.results.detention import detention_results
from generator.results.pump_out_years import years_results
from generator.results.result import Result
from generator.results.solids_contents import (
    all_criteria_results,
    contents_of,
    contents_results,
)
from generator.results.tank import Inside


def solids_of_tanks_results(
    tanks: Sequence[Tank],
    insides: Mapping[str, Inside],
    household: Household | None,
    packs: Sequence[Pack],
    *,
    local: Pack | None = None,
    flow: DailyFlow | None = None,
) -> list[Result]:
    """Work out criteria, volumes, time of stay, build-up and years of all tanks.

    A holding tank keeps nothing back and lets nothing out: it is left out.
    """
    found = []
    tanks = [one for one in tanks if one.kind != HOLDING_TANK]
    for tank in tanks:
        inside = insides[tank.name]
        found += all_criteria_results(tank, inside, packs)
        contents = contents_of(tank, inside)
        if contents is not None:
            found += contents_results(tank, contents)
            found += detention_results(tank, contents, flow)
            found += build_up_results(tank, contents, household, packs, local)
    return found + years_results(tanks, insides, household)
