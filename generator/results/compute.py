"""One record becomes all its results, subject by subject."""

from __future__ import annotations

from collections.abc import Mapping

from generator.codes.packs import Pack, with_pump_out
from generator.problems import Problem, Refused
from generator.record.model import Record
from generator.record.parts import HOLDING_TANK, Tank
from generator.results import inflow, load_test, pipe_log, separation
from generator.results.absorption import absorption_results
from generator.results.cesspool import cesspool_results
from generator.results.compartments import compartment_results
from generator.results.depth import depth_results
from generator.results.design_flow import DailyFlows, design_results
from generator.results.distribution import distribution_results
from generator.results.holding_tank import holding_tank_results
from generator.results.load_test_beyond import PUMP_CHAMBER, Between, parts_beyond
from generator.results.load_test_results import load_test_results
from generator.results.location import Spot, locate, location_results
from generator.results.plan_pairs import plan_pairs_of
from generator.results.pump_chamber import pump_results
from generator.results.pump_inside import Chamber
from generator.results.result import Number, Results, nominal
from generator.results.solids_of_tanks import solids_of_tanks_results
from generator.results.tank import Inside, inside_of, tank_results
from generator.results.tank_device import device_results
from generator.results.tank_series import series_results
from generator.results.taped_against_plan import (
    comparison_results,
    comparisons_of,
    disagreements,
)
from generator.results.two_day_test import work_out_two_days
from generator.results.two_day_test_results import two_day_results


def compute(record: Record, pack: Pack | None) -> Results:
    """Work out every result of a record.

    Parameters
    ----------
    record : Record
        The checked job.
    pack : Pack or None
        The local code, where the job names one.

    Returns
    -------
    Results
        Every result by name; ``parts`` holds what figures and findings need whole:
        ``spots``, ``insides``, ``load_test``, ``two_day``, ``pipes`` and ``pairs``.

    Raises
    ------
    Refused
        Where ties cannot meet, or tape and plan disagree.
    """
    results = Results()
    spots, pairs, problems = _placed(record, pack)
    if problems:
        raise Refused(problems)
    results.parts["spots"] = spots
    results.add(location_results(spots, record))
    results.add(depth_results(record.inspection.depths))
    _tanks(record, pack, results)
    results.add(distribution_results(record, pack))
    results.add(pump_results(record, pack))
    results.add(cesspool_results(record, pack))
    flow = _load_test(record, pack, results)
    _two_days(record, pack, results)
    results.add(absorption_results(record, pack, _tested_gal(results)))
    _pipes(record, results, flow)
    _distances(pairs, results)
    return results


def refusals(record: Record, pack: Pack | None) -> list[Problem]:
    """List what keeps a record from being worked out, without working it out."""
    _, _, problems = _placed(record, pack)
    return problems


def _placed(
    record: Record, pack: Pack | None
) -> tuple[dict[str, Spot], list[separation.Pair], list[Problem]]:
    """Give the points, the distances, and what keeps them from being worked out."""
    spots, problems = locate(record)
    pairs = [] if problems else _pairs(record, pack, spots)
    problems = problems or disagreements(record, pairs)
    return spots, pairs, problems + _no_share(record, pack)


def _pairs(
    record: Record, pack: Pack | None, spots: Mapping[str, Spot]
) -> list[separation.Pair]:
    taped = separation.pairs_of(record.inspection, pack)
    return taped + plan_pairs_of(record.inspection, spots, pack)


def tested_tank(record: Record) -> Tank | None:
    """Give the tank whose level was read in the load test."""
    test = record.inspection.load_test
    tanks = record.inspection.tanks
    if test is None or not tanks:
        return None
    named = [one for one in tanks if one.name == test.tank]
    found = (named or list(tanks))[0]
    return None if found.kind == HOLDING_TANK else found  # no outlet to read against


def _tanks(record: Record, pack: Pack | None, results: Results) -> None:
    tanks = record.inspection.tanks
    insides = {one.name: inside_of(one) for one in tanks}
    results.parts["insides"] = insides
    drained = [one for one in tanks if one.kind != HOLDING_TANK]
    volumes = [insides[one.name].volume_gal() for one in drained]
    whole = sum(volumes[1:], volumes[0]) if volumes else None
    results.add(design_results(record, pack, whole))
    for one in tanks:
        if one.kind == HOLDING_TANK:
            flows = DailyFlows(record, pack)
            results.add(holding_tank_results(one, insides[one.name], flows))
            continue
        results.add(tank_results(one, insides[one.name]))
        results.add(compartment_results(one, insides[one.name]))
        results.add(device_results(one, insides[one.name]))
    results.add(series_results(drained, insides))
    results.add(
        solids_of_tanks_results(
            tanks,
            insides,
            record.inspection.household,
            with_pump_out(),
            local=pack,
            flow=DailyFlows(record, pack).first,
        )
    )


def _load_test(record: Record, pack: Pack | None, results: Results) -> Number | None:
    test, one = record.inspection.load_test, tested_tank(record)
    results.parts["load_test"] = None
    if test is None or one is None:
        return None
    design = DailyFlows(record, pack).design
    runs = [inflow.running(stretch) for stretch in test.water]
    results.add(inflow.inflow_results(test, runs))
    worked = load_test.work_out(
        test,
        results.parts["insides"][one.name],
        runs,
        volumes=_volumes(record, results),
        beyond=parts_beyond(record.inspection),
        design=design,
    )
    results.parts["load_test"] = worked
    results.add(load_test_results(test, worked, design))
    return max((run.flow_gpm for run in runs), key=nominal)


def _volumes(record: Record, results: Results) -> dict[str, Between]:
    """Give the gallons between two levels of every tank and of the pump chamber."""
    insides: Mapping[str, Inside] = results.parts["insides"]
    found: dict[str, Between] = {
        name: inside.between_gal for name, inside in insides.items()
    }
    if record.inspection.pump_chamber is not None:
        chamber = Chamber.of(record.inspection.pump_chamber)
        found[PUMP_CHAMBER] = chamber.from_inlet_gal
    return found


def _two_days(record: Record, pack: Pack | None, results: Results) -> None:
    test = record.inspection.two_day_test
    results.parts["two_day"] = None
    if test is None:
        return
    design = DailyFlows(record, pack).design
    worked = work_out_two_days(test, design)
    results.parts["two_day"] = worked
    results.add(two_day_results(test, worked, design))


def _no_share(record: Record, pack: Pack | None) -> list[Problem]:
    """Tell a target that is a share of a design flow which the code does not give."""
    test = record.inspection.load_test
    if test is None or test.target is None or test.target.percent is None:
        return []
    if DailyFlows(record, pack).design is not None:
        return []
    path = test.path("target")
    return [
        Problem(
            f"inspections/{record.job}.yaml",
            record.line(path),
            path,
            "The local code gives no design flow for this house at hand.",
            "Give the target in gallons or minutes.",
        )
    ]


def _tested_gal(results: Results) -> Number | None:
    passed = results.get("load_test.passed_total")
    return passed.number if passed else None


def _pipes(record: Record, results: Results, flow: Number | None) -> None:
    inspection = record.inspection
    results.parts["pipes"] = []
    path = inspection.load_test.path("water") if inspection.load_test else ""
    for run in inspection.pipe_runs:
        inside = pipe_log.look(run, flow)
        results.parts["pipes"].append(inside)
        results.add(pipe_log.pipe_results(inside, flow, path))


def _distances(pairs: list[separation.Pair], results: Results) -> None:
    results.parts["pairs"] = pairs
    results.add(separation.separation_results(pairs))
    results.add(comparison_results(comparisons_of(pairs)))
