"""What to record before leaving the lot, and the sums that are needed next."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain

from generator.codes.layers import code_for
from generator.problems import Refused
from generator.record.draft import Draft
from generator.record.model import Record
from generator.record.todo import Cost, Item, in_order
from generator.results.compute import tested_tank
from generator.results.design_flow import design_flow
from generator.results.next_depths import depth_sums
from generator.results.next_distances import distance_items, distance_sums
from generator.results.next_hose import hose_sums
from generator.results.result import nominal
from generator.results.tank import inside_of

ON_THE_LOT = "Before you leave, most costly to come back for first:"
AT_THE_DESK = "What can wait for the desk:"
SUMS = "The sums you need next:"


def told(draft: Draft, items: Sequence[Item], record: Record | None) -> list[str]:
    """Tell a draft's open items and next sums, line by line.

    Parameters
    ----------
    draft : Draft
        The job file.
    items : sequence of Item
        What the file itself shows to be missing.
    record : Record or None
        What could be built of it; None where problems stand in the way.

    Returns
    -------
    list of str
        Nothing where nothing is open.
    """
    try:
        pack = code_for(record) if record else None
    except Refused:  # told already as a problem of the job
        record, pack = None, None
    found = list(items)
    sums: list[str] = []
    if record is not None:
        found += distance_items(record, pack)
        found.sort(key=in_order(draft))
        sums += _hose(draft, record)
        sums += chain(depth_sums(record.inspection.depths), distance_sums(record, pack))
    lot = [one for one in found if one.cost is not Cost.DESK]
    desk = [one for one in found if one.cost is Cost.DESK]
    lines = _listed(ON_THE_LOT, draft, lot) + _listed(AT_THE_DESK, draft, desk)
    return lines + ([SUMS, *(f"  - {one}" for one in sums)] if sums else [])


def _hose(draft: Draft, record: Record) -> list[str]:
    tank = tested_tank(record) or next(iter(record.inspection.tanks), None)
    gpd = design_flow(record, code_for(record))
    inside = inside_of(tank) if tank else None
    return list(hose_sums(draft, inside, None if gpd is None else nominal(gpd)))


def _listed(head: str, draft: Draft, items: Sequence[Item]) -> list[str]:
    if not items:
        return []
    return [head, *(_line(number, draft, one) for number, one in enumerate(items, 1))]


def _line(number: int, draft: Draft, item: Item) -> str:
    where = item.path
    if item.path in draft.document.lines:
        where = f"line {draft.document.line(item.path)}, {where}"
    needed = "; a final file needs it" if item.needed else ""
    return f"{number:3}. {item.words}\n     ({where}{needed})"
