"""What is still to be recorded, most costly to go back for first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from enum import IntEnum

from generator.problems import Problem
from generator.record.check import group_at
from generator.record.draft import Draft
from generator.record.paths import section, steps
from generator.record.slips_when_final import told_unseen


class Cost(IntEnum):
    """What it takes to record a thing later, dearest first; our own order."""

    BEFORE = 0  # wanted before anyone digs, probes or runs water
    TEST = 1  # water that has been run will not be run again today
    OPEN = 2  # a cover has to be lifted once more
    PLACE = 3  # the part can hardly be found again
    DISTANCE = 4  # a tape has to be laid once more
    PICTURE = 5
    WALK = 6
    CLOSE = 7  # done last, and never left out
    DESK = 8  # a telephone or a file will do


@dataclass(frozen=True)
class Item:
    """One thing that is still to be recorded.

    ``about`` are words by which an entry of ``not_seen`` may answer for it; ``needed``
    things keep a file from being final.
    """

    cost: Cost
    path: str
    words: str
    needed: bool = False
    about: tuple[str, ...] = ()

    def problem(self, draft: Draft) -> Problem:
        """Tell a needed thing as what keeps a file from being final."""
        hint = "Record it, or write the state as draft."
        if self.about:
            hint = (
                f'Record it, or say under "not_seen" ({self.about[0]}) why it was not '
                "possible."
            )
        return draft.tell(
            self.path, f"A final file still needs this: {self.words}", hint
        )


Rule = Callable[[Draft], Iterator[Item]]

COST_OF_SECTION = {
    "load_test": Cost.TEST,
    "two_day_test": Cost.TEST,
    "cesspool": Cost.OPEN,
    "tanks": Cost.OPEN,
    "pump_chamber": Cost.OPEN,
    "distribution_box": Cost.OPEN,
    "pipe_runs": Cost.OPEN,
    "datum": Cost.PLACE,
    "places": Cost.PLACE,
    "depths": Cost.PLACE,
    "absorption_areas": Cost.PLACE,
    "features": Cost.PLACE,
    "distances": Cost.DISTANCE,
    "walkover": Cost.WALK,
}


def open_items(
    draft: Draft, rules: Iterable[Rule], later: Iterable[Problem] = ()
) -> list[Item]:
    """List what is still to be recorded.

    Parameters
    ----------
    draft : Draft
        The job file, which may have other problems.
    rules : iterable of callable
        Each looks at the draft and yields what it misses.
    later : iterable of Problem
        Keys that a group lacks, as the check told them.

    Returns
    -------
    list of Item
        Dearest to go back for first; equal ones in the order of the file.
    """
    found = [_of_problem(one) for one in later]
    found += [item for rule in rules for item in rule(draft)]
    open_ = [one for one in dict.fromkeys(found) if not told_unseen(draft, *one.about)]
    return sorted(open_, key=in_order(draft))


def in_order(draft: Draft) -> Callable[[Item], tuple[int, bool, int]]:
    """Put the dearest first, then what a final file needs, then by line."""

    def key(item: Item) -> tuple[int, bool, int]:
        return item.cost, not item.needed, draft.document.line(item.path)

    return key


def _of_problem(problem: Problem) -> Item:
    words = problem.message
    if words.endswith("is missing here."):
        words = described(problem.field)
    elif problem.hint:
        words = f"{words} {problem.hint}"
    cost = COST_OF_SECTION.get(section(problem.field), Cost.DESK)
    return Item(cost, problem.field, words, True)


def described(path: str) -> str:
    """Say in the words of the schema what stands at a path.

    Examples
    --------
    >>> described("tanks[0].sludge")
    'Sludge: thickness of the sludge on the floor.'
    """
    node = group_at(steps(path), "inspection")
    words = str(node["description"])
    return f"{node['title']}: {words[:1].lower()}{words[1:]}"
