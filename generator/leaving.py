"""What to record before leaving the lot, and the sums that are needed next."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain

from generator.codes.layers import code_for
from generator.codes.packs import Pack
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

BEFORE = "Before the work begins:"
ON_THE_LOT = "Before you leave, most costly to come back for first:"
AT_THE_DESK = "What can wait for the desk:"
SUMS = "The sums you need next:"


def told(draft: Draft, items: Sequence[Item], record: Record | None) -> list[str]:
    """Tell the next sums of a draft and its open items, line by line.

    Parameters
    ----------
    draft : Draft
        The job file.
    items : sequence of Item
        What the file itself shows to be missing.
    record : Record or None
        What could be built of it, beside whatever problems there are.

    Returns
    -------
    list of str
        Nothing where nothing is open.
    """
    found = list(items)
    sums: list[str] = []
    if record is not None:
        pack = _code(record)
        found += distance_items(record, pack)
        found.sort(key=in_order(draft))
        sums += _hose(draft, record, pack)
        sums += chain(depth_sums(record.inspection.depths), distance_sums(record, pack))
    lines = [SUMS, *(f"  - {one}" for one in sums)] if sums else []
    for head, part in (
        (BEFORE, [one for one in found if one.cost is Cost.BEFORE]),
        (ON_THE_LOT, [one for one in found if Cost.BEFORE < one.cost < Cost.DESK]),
        (AT_THE_DESK, [one for one in found if one.cost is Cost.DESK]),
    ):
        lines += _listed(head, draft, part)
    return lines


def _code(record: Record) -> Pack | None:
    try:
        return code_for(record)
    except Refused:  # told as a problem of the job
        return None


def _hose(draft: Draft, record: Record, pack: Pack | None) -> list[str]:
    tank = tested_tank(record) or next(iter(record.inspection.tanks), None)
    gpd = design_flow(record, pack)
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
