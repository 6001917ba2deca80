"""Water that a house is taken to give in a day: by its bedrooms, by its people."""

from __future__ import annotations

from dataclasses import dataclass

from generator.codes.packs import Pack
from generator.record.model import Record
from generator.record.parts import HOLDING_TANK
from generator.results.asked import CONFIRM
from generator.results.guard_band import hold
from generator.results.result import Number, Result, Symbol

PERSON_GPD = 45.0  # operating flow of one person; [WAC-0230], (2)(d)
UNREAD = "this figure was not read in its source: confirm it with the authority"


@dataclass(frozen=True)
class DailyFlow:
    """A flow of a day, what it is, and the key of the job file behind it. [gal/day]"""

    gpd: Number
    words: str
    path: str
    source: str
    seen: bool = True


def household_gpd(people: int) -> float:
    """Flow of a usual day from the people who live in a house.

    Parameters
    ----------
    people : int
        People who live in the house. [-]

    Returns
    -------
    float
        Flow of a usual day. [gal/day]

    Notes
    -----
    An operating figure, without the reserve that a design adds; one household may use
    half of it or twice as much. Source: [WAC-0230], (2)(d).

    Examples
    --------
    >>> household_gpd(4)
    180.0
    """
    return PERSON_GPD * people


def design_flow(record: Record, pack: Pack | None) -> Number | None:
    """Give the design flow by bedrooms, or None where no row says. [gal/day]"""
    found = DailyFlows(record, pack).design
    return found.gpd if found else None


def household_flow(record: Record) -> Number | None:
    """Give the flow of a usual day by people, or None. [gal/day]"""
    found = DailyFlows(record, None).household
    return found.gpd if found else None


@dataclass(frozen=True)
class DailyFlows:
    """The flows of a day that one record and its local code give."""

    record: Record
    pack: Pack | None

    @property
    def design(self) -> DailyFlow | None:
        """The design flow of the local code."""
        home, pack = self.record.inspection.property, self.pack
        if pack is None or pack.design_flow is None or not home.bedrooms:
            return None
        gpd = pack.gpd(home.bedrooms)
        if gpd is None:
            return None
        return DailyFlow(
            float(gpd),
            "design flow",
            home.path("bedrooms"),
            pack.source("design_flow"),
            pack.design_flow.seen == "yes",
        )

    @property
    def household(self) -> DailyFlow | None:
        """The flow of the people who live there."""
        household = self.record.inspection.household
        if household is None or not household.people:
            return None
        return DailyFlow(
            household_gpd(household.people),
            "flow of the household",
            household.path("people"),
            "WAC-0230",
        )

    @property
    def first(self) -> DailyFlow | None:
        """The design flow, or that of the household where no code gives one."""
        return self.design or self.household


def design_results(
    record: Record, pack: Pack | None, total_tank_volume: Number | None
) -> list[Result]:
    """Work out the flows of a day, and hold the tanks against the local code."""
    flows = DailyFlows(record, pack)
    found = []
    if flows.design:
        found.append(_design(record, flows.design))
    if flows.household:
        found.append(_household(flows.household))
    if pack:
        found += _tank(record, pack, total_tank_volume)
    return found


def _design(record: Record, flow: DailyFlow) -> Result:
    return Result(
        "design.flow",
        f"Design flow for {record.inspection.property.bedrooms} bedrooms",
        flow.gpd,
        "gal/day",
        "read from the table of the code",
        (),
        (flow.path,),
        flow.source,
        () if flow.seen else (UNREAD,),
    )


def _household(flow: DailyFlow) -> Result:
    people = flow.gpd / PERSON_GPD
    return Result(
        "design.household_flow",
        "Flow of a usual day by the people in the house",
        flow.gpd,
        "gal/day",
        "Qh = N × q",
        (
            Symbol("N", people, "", "people in the house"),
            Symbol("q", PERSON_GPD, "gal/day", "operating flow of one person"),
        ),
        (flow.path,),
        flow.source,
        ("an operating figure: one household may use half of it or twice as much",),
    )


def _tank(record: Record, pack: Pack, volume: Number | None) -> list[Result]:
    home = record.inspection.property
    least = pack.least_gallons(home.bedrooms) if home.bedrooms else None
    if least is None or pack.least_tank is None:
        return []
    seen = pack.least_tank.seen == "yes"
    assumed = () if seen else (UNREAD,)
    inputs, source = (home.path("bedrooms"),), pack.source("least_tank")
    found = [
        Result(
            "design.least_tank",
            f"Least tank of the code for {home.bedrooms} bedrooms",
            float(least),
            "gal",
            "read from the table of the code",
            (),
            inputs,
            source,
            assumed,
        )
    ]
    if volume is not None:
        found.append(
            Result(
                "design.tank_share",
                f"Tank volume as a share of the {least} gal that the code asks",
                100 * volume / least,
                "%",
                "share = 100 × V / Vl",
                (
                    Symbol("V", volume, "gal", "volume of the tanks together"),
                    Symbol("Vl", float(least), "gal", "least tank of the code"),
                ),
                (
                    *inputs,
                    *(
                        one.path("liquid_depth")
                        for one in record.inspection.tanks
                        if one.kind != HOLDING_TANK
                    ),
                ),
                source,
                assumed,
                hold(volume, least, least=True) if seen else CONFIRM,
            )
        )
    return found
