"""What one camera run showed, as a few plain records."""

from __future__ import annotations

from dataclasses import dataclass

from generator.record.pipes import LogEntry, PipeRun
from generator.results.pipe_bore import Narrowing
from generator.results.result import Number, nominal
from generator.results.roughness import Roughness

SAG, STANDING, HELD, FLOW = "sag", "standing", "held back", "flow"


@dataclass(frozen=True)
class Reach:
    """A length of one material, and how the test flow would run in it.

    ``end_ft`` is where the next material begins, or the end of what was seen.
    ``expected_in`` is None where no depth can be expected. [ft], [in], [ft/s]
    """

    material: str | None
    start_ft: float
    end_ft: float
    roughness: Roughness
    expected_in: Number | None = None
    velocity_fps: Number | None = None
    overloaded: bool = False


@dataclass(frozen=True)
class Sight:
    """One log entry that tells of water: depth seen, and whether the flow explains it.

    ``water_in`` is None where no depth was written down. [in]
    """

    entry: LogEntry
    water_in: Number | None
    deeper: bool
    reach: Reach


@dataclass(frozen=True)
class Water:
    """One stretch of deeper water, told apart by what ends it. [ft], [in]

    ``kind`` is ``sag`` (it clears beyond), ``standing`` (it never clears as far as was
    seen), ``held back`` (it stands up to ``behind``, a blockage or an offset joint) or
    ``flow`` (the head was under water, and the flow itself explains that).
    ``clears_ft`` is the first sight beyond that was clear of it.
    """

    kind: str
    start_ft: float
    end_ft: float | None
    length_ft: float
    deepest_in: Number | None
    sights: tuple[Sight, ...]
    behind: LogEntry | None = None
    clears: LogEntry | None = None

    @property
    def deepest(self) -> Sight:
        """The sight of the deepest water, the first one where none was measured."""
        return max(
            self.sights,
            key=lambda one: -1.0 if one.water_in is None else nominal(one.water_in),
        )


@dataclass(frozen=True)
class Inside:
    """What one run showed. Distances along the run. [ft], [in]"""

    run: PipeRun
    reaches: tuple[Reach, ...]
    views: tuple[Sight, ...]
    waters: tuple[Water, ...]
    narrowed: tuple[Narrowing, ...]
    perforated_ft: float | None
    seen_to_ft: float
    unseen_ft: float | None

    @property
    def expected_in(self) -> Number | None:
        """Depth expected in the material at the start. [in]"""
        return self.reaches[0].expected_in

    @property
    def overloaded(self) -> bool:
        """Whether some length of the pipe cannot carry the test flow."""
        return any(reach.overloaded for reach in self.reaches)

    @property
    def sights(self) -> tuple[Sight, ...]:
        """The sights with a measured depth, in the order of their results."""
        return tuple(one for one in self.views if one.water_in is not None)

    def of_kind(self, *kinds: str) -> tuple[Water, ...]:
        """Stretches of some kinds, in order of distance."""
        return tuple(one for one in self.waters if one.kind in kinds)

    @property
    def standing(self) -> tuple[Water, ...]:
        """Water that never clears to the end of what was seen; one stretch or none."""
        return self.of_kind(STANDING)

    @property
    def sags(self) -> tuple[Water, ...]:
        """Stretches of water that clear beyond."""
        return self.of_kind(SAG)

    @property
    def held_back(self) -> tuple[Water, ...]:
        """Stretches of water that stand up to a blockage or an offset joint."""
        return self.of_kind(HELD)

    def suffix(self, reach: Reach) -> str:
        """Ending of the names of a reach's results: none for the first roughness."""
        same = [one.roughness.value for one in self.reaches]
        place = same.index(reach.roughness.value)
        return "" if place == 0 else f".{place + 1}"
