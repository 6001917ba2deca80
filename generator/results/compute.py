"""One record becomes all its results, subject by subject."""

from __future__ import annotations

from generator.codes.packs import Pack, with_pump_out
from generator.record.model import Record, Tank
from generator.results import inflow, load_test, pipe_log, separation, solids, tank
from generator.results.load_test_results import load_test_results
from generator.results.result import Number, Results, nominal


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
        ``insides``, ``solids``, ``load_test``, ``pipes`` and ``pairs``.
    """
    results = Results()
    inspection = record.inspection
    insides = {one.name: tank.inside_of(one) for one in inspection.tanks}
    results.parts["insides"] = insides
    for one in inspection.tanks:
        results.add(tank.tank_results(one, insides[one.name]))
        _solids(record, results, one)
    flow = _load_test(record, results)
    results.parts["pipes"] = []
    path = inspection.load_test.path("water") if inspection.load_test else ""
    for run in inspection.pipe_runs:
        inside = pipe_log.look(run, flow)
        results.parts["pipes"].append(inside)
        results.add(pipe_log.pipe_results(inside, flow, path))
    pairs = separation.pairs_of(inspection.distances, pack)
    results.parts["pairs"] = pairs
    results.add(separation.separation_results(pairs, pack))
    return results


def tested_tank(record: Record) -> Tank | None:
    """Give the tank whose level was read in the load test."""
    test = record.inspection.load_test
    tanks = record.inspection.tanks
    if test is None or not tanks:
        return None
    named = [one for one in tanks if one.name == test.tank]
    return (named or list(tanks))[0]


def _solids(record: Record, results: Results, one: Tank) -> None:
    inside = results.parts["insides"][one.name]
    taken = solids.take(one, inside)
    if taken is not None:
        results.add(solids.solids_results(one, taken, with_pump_out()))
    household = record.inspection.household
    if household and household.people:
        path = household.path("people")
        volume = inside.volume_gal()
        results.add([solids.years_result(one, volume, household.people, path)])


def _load_test(record: Record, results: Results) -> Number | None:
    test, one = record.inspection.load_test, tested_tank(record)
    results.parts["load_test"] = None
    if test is None or one is None:
        return None
    runs = [inflow.running(stretch) for stretch in test.water]
    results.add(inflow.inflow_results(test, runs))
    worked = load_test.work_out(test, results.parts["insides"][one.name], runs)
    results.parts["load_test"] = worked
    results.add(load_test_results(test, worked))
    return max((run.flow_gpm for run in runs), key=nominal)
