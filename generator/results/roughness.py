"""Manning's roughness of each pipe material, each figure with who gives it."""

from __future__ import annotations

from dataclasses import dataclass

from generator.record.pipes import PipeRun
from generator.results.measured import ROUGHNESS_N, measured
from generator.results.result import Number

ROUGHNESS = {  # Manning's n [s/m^(1/3)]: value, source key
    "PVC": (0.010, "WINCHESTER-N"),
    "ABS": (0.010, "practice"),
    "HDPE": (0.011, "WINCHESTER-N"),
    "cast iron": (0.013, "WINCHESTER-N"),
    "clay": (0.013, "WINCHESTER-N"),
    "concrete": (0.013, "WINCHESTER-N"),
    "brick": (0.015, "WINCHESTER-N"),
    "bituminized fiber": (0.013, "practice"),
    "unknown": (0.013, "practice"),
}
OTHER_FIGURES = {  # further figures read for one material: value, source key
    "PVC": (0.009, "PVC-MAKER-N"),
    "clay": (0.012, "DINGMAN-N"),
    "concrete": (0.012, "DINGMAN-N"),
}
SAID_BY = {
    "WINCHESTER-N": "city code of Winchester, Indiana, Table 4",
    "DINGMAN-N": "Dingman Township, Pa., Appendix B.5",
    "PVC-MAKER-N": "a maker of PVC pipe",
    "practice": "common practice, no source",
}
NOT_NAMED = "unknown"


@dataclass(frozen=True)
class Roughness:
    """Manning's n of one material and, in words, where it comes from. [s/m^(1/3)]"""

    value: float
    said: str
    given: bool = False

    @property
    def number(self) -> Number:
        """The roughness with its uncertainty. [s/m^(1/3)]"""
        return measured(self.value, ROUGHNESS_N)

    @classmethod
    def of(cls, run: PipeRun, material: str | None) -> Roughness:
        """Take the figure that the job gives, else the one of the table."""
        if run.roughness is not None and run.roughness.value > 0:
            by = run.roughness_from or "the inspector, who names no source for it"
            said = f"roughness n {run.roughness.typed} instead of the table, given by "
            return cls(run.roughness.value, said + by, given=True)
        name = material or NOT_NAMED
        value, key = ROUGHNESS[name]
        pipe = "pipe of unknown material" if name == NOT_NAMED else name
        said = f"roughness n {value:.3f} for {pipe}: {SAID_BY[key]}"
        if name in OTHER_FIGURES:
            other, other_key = OTHER_FIGURES[name]
            said += f" ({other:.3f} by {SAID_BY[other_key]})"
        return cls(value, said)
