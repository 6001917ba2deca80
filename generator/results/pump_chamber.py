"""What follows from a pump chamber: dose, doses of a day, reserve and rate."""

from __future__ import annotations

from generator.codes.packs import Pack
from generator.record.model import Record
from generator.results.design_flow import UNREAD, DailyFlow, DailyFlows
from generator.results.measured import (
    DRAIN_BACK,
    FLOAT_IN,
    LEVEL_IN,
    MEANWHILE,
    WATCH_MIN,
    measured,
)
from generator.results.pump_inside import Chamber
from generator.results.pump_volumes import (
    doses_per_day,
    net_dose_gal,
    pump_rate_gpm,
    reserve_hours,
)
from generator.results.result import Number, Result, Symbol, nominal

NO_DRAIN_BACK = "no drain-back was recorded: the whole dose is counted"
NO_INFLOW = "no inflow was recorded during the drawdown: none is counted"


def pump_results(record: Record, pack: Pack | None) -> list[Result]:
    """Work out dose, rate, doses of a day and reserve of the pump chamber."""
    recorded = record.inspection.pump_chamber
    if recorded is None:
        return []
    chamber = Chamber.of(recorded)
    flow = DailyFlows(record, pack).first
    found = [] if chamber.wrong() else [*_dose(chamber, flow), *_reserve(chamber, flow)]
    return [*found, *_rate(chamber)]


def _dose(chamber: Chamber, flow: DailyFlow | None) -> list[Result]:
    one = chamber.recorded
    gross = chamber.between_gal(one.pump_off, one.pump_on, FLOAT_IN)
    if gross is None:
        return []
    paths = chamber.paths("pump_on", "pump_off")
    assumed = chamber.assumptions(FLOAT_IN)
    back = one.drain_back
    run_back = measured(back.gallons, DRAIN_BACK) if back else 0.0
    net = net_dose_gal(gross, run_back)
    net_assumed = (*assumed, DRAIN_BACK.assumption() if back else NO_DRAIN_BACK)
    net_paths = (*paths, one.path("drain_back")) if back else paths
    dose = _volume(chamber, "pump.dose", "Gallons between the floats", gross, paths)
    found = [
        dose,
        Result(
            "pump.net_dose",
            "Gallons of each dose that stay out of the chamber",
            net,
            "gal",
            "Vn = Vd − Vb",
            (
                Symbol("Vd", gross, "gal", "gallons between the floats"),
                Symbol("Vb", run_back, "gal", "drain-back"),
            ),
            net_paths,
            "BALANCE",
            net_assumed,
        ),
    ]
    if flow and nominal(net) > 0:
        found.append(
            Result(
                "pump.doses_per_day",
                f"Doses in a day at the {flow.words}",
                doses_per_day(flow.gpd, net),
                "doses/day",
                "n = Q / Vn",
                (
                    Symbol("Q", flow.gpd, "gal/day", flow.words),
                    Symbol("Vn", net, "gal", "net dose"),
                ),
                (flow.path, *net_paths),
                flow.source,
                (*net_assumed, *(() if flow.seen else (UNREAD,))),
            )
        )
    return found


def _reserve(chamber: Chamber, flow: DailyFlow | None) -> list[Result]:
    one = chamber.recorded
    reserve = chamber.between_gal(one.alarm_on, one.inlet, FLOAT_IN)
    if reserve is None:
        return []
    paths = chamber.paths("alarm_on", "inlet")
    label = "Gallons from the alarm up to the inlet"
    found = [_volume(chamber, "pump.reserve", label, reserve, paths)]
    if flow and nominal(flow.gpd) > 0:
        found.append(
            Result(
                "pump.reserve_hours",
                f"Hours from the alarm to the inlet at the {flow.words}",
                reserve_hours(reserve, flow.gpd),
                "h",
                "t = 24 × Vr / Q",
                (
                    Symbol("Vr", reserve, "gal", "gallons from alarm to inlet"),
                    Symbol("Q", flow.gpd, "gal/day", flow.words),
                ),
                (flow.path, *paths),
                flow.source,
                (
                    *chamber.assumptions(FLOAT_IN),
                    "the water of a day taken as even over the day",
                    *(() if flow.seen else (UNREAD,)),
                ),
            )
        )
    return found


def _volume(
    chamber: Chamber, name: str, label: str, number: Number, paths: tuple[str, ...]
) -> Result:
    upright = chamber.inside is not None and not chamber.inside.lies
    symbols: tuple[Symbol, ...] = ()
    formula = "V = gallons below the upper height less those below the lower"
    if upright and chamber.inside is not None:
        per_inch = chamber.inside.gal_per_in()
        formula = "V = G × s"
        symbols = (
            Symbol("G", per_inch, "gal/in", "gallons in one inch"),
            Symbol("s", number / per_inch, "in", "distance between the two heights"),
        )
    return Result(
        name,
        label,
        number,
        "gal",
        formula,
        symbols,
        paths,
        "NIST-HB44" if upright else "Chow1959",
        chamber.assumptions(FLOAT_IN),
    )


def _rate(chamber: Chamber) -> list[Result]:
    down = chamber.recorded.drawdown
    if down is None or down.time.minutes <= 0:
        return []
    drawn = chamber.between_gal(down.to, down.from_, LEVEL_IN)
    if drawn is None:
        return []
    time = measured(down.time.minutes, WATCH_MIN)
    came = measured(down.inflow.gpm, MEANWHILE) if down.inflow else 0.0
    rate = pump_rate_gpm(drawn, time, came)
    if nominal(rate) < 0:
        return []
    keys = ("from", "to", "time", *(("inflow",) if down.inflow else ()))
    return [
        Result(
            "pump.rate",
            "Rate of the pump by its drawdown",
            rate,
            "gpm",
            "q = V / t + Qi",
            (
                Symbol("V", drawn, "gal", "gallons drawn down"),
                Symbol("t", time, "min", "time the pump ran"),
                Symbol("Qi", came, "gal/min", "water that came in meanwhile"),
            ),
            (*chamber.paths(), *(down.path(key) for key in keys)),
            "BALANCE",
            (
                *chamber.assumptions(LEVEL_IN),
                WATCH_MIN.assumption(),
                MEANWHILE.assumption() if down.inflow else NO_INFLOW,
            ),
        )
    ]
