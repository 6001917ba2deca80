"""The working of every result gives its value, and every result can be traced."""

from __future__ import annotations

import ast
import math
import operator
import re
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import pytest

from generator.codes.packs import names, pack
from generator.record.load import Workspace
from generator.results.result import Result
from generator.sources import SOURCES
from generator.worked import Worked, work_out

PROJECT = Path(__file__).parents[1]
JOBS = ("demo-larch-hollow", "demo-cattail-lake")
ROUNDING = 0.006  # of a working whose numbers are written with four figures
ABOUT_ZERO = 0.03  # of a coordinate that is the difference of two of four figures
LEAST_EVALUATED = 40
SIGNS = str.maketrans({"×": "*", "−": "-", "²": "**2", "³": "**3", "÷": "/"})
DO: dict[type, Callable[..., float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
    ast.USub: operator.neg,
}

CALLS: dict[str, Callable[[float], float]] = {"sqrt": math.sqrt, "abs": abs}
BARS = re.compile(r"\|([^|]+)\|")  # the bars around what counts without its sign


@lru_cache
def worked(job: str) -> Worked:
    """Work a demonstration job out, once."""
    return work_out(Workspace(PROJECT), job)


@pytest.fixture(params=JOBS)
def job(request: pytest.FixtureRequest) -> Worked:
    """Give each demonstration job in turn."""
    return worked(request.param)


def value_of(node: ast.AST) -> float:
    """Work out one part of an expression of plain numbers."""
    match node:
        case ast.Expression(body):
            return value_of(body)
        case ast.Constant(int() | float() as number):
            return float(number)
        case ast.UnaryOp(sign, operand) if type(sign) in DO:
            return DO[type(sign)](value_of(operand))
        case ast.Call(ast.Name(name), [argument]) if name in CALLS:
            return CALLS[name](value_of(argument))
        case ast.BinOp(left, sign, right) if type(sign) in DO:
            return DO[type(sign)](value_of(left), value_of(right))
    raise ValueError(ast.dump(node))


def arithmetic(result: Result) -> float | None:
    """Evaluate the working of a result, or None where it is not arithmetic."""
    parts = result.working.split(" = ")
    if len(parts) != 3:
        return None
    try:
        plain = BARS.sub(r"abs(\1)", parts[1]).translate(SIGNS)
        return value_of(ast.parse(plain, mode="eval"))
    except (SyntaxError, ValueError):
        return None


def fits(result: Result) -> bool:
    """Tell whether the working gives the value, and says it with its unit."""
    put_in = arithmetic(result)
    said = result.working.split(" = ")[-1].replace("−", "-")
    return (
        put_in == pytest.approx(result.value, rel=ROUNDING, abs=ABOUT_ZERO)
        and float(said.split()[0]) == pytest.approx(result.value, rel=0.001)
        and said.endswith(result.unit)
    )


def known(source: str) -> bool:
    """Tell whether a source is in the bibliography, or a part of a pack."""
    if not source.startswith("pack:"):
        return source in SOURCES
    _, name, part = source.split(":")
    return name in names() and getattr(pack(name), part) is not None


def test_every_working_gives_its_value(job: Worked) -> None:
    written = [one for one in job.results.all.values() if one.working]
    assert [(one.name, one.working) for one in written if not fits(one)] == []


def test_enough_workings_are_arithmetic() -> None:
    every = [one for job in JOBS for one in worked(job).results.all.values()]
    assert sum(arithmetic(one) is not None for one in every) >= LEAST_EVALUATED


def test_every_source_is_known(job: Worked) -> None:
    found = {one.source for one in job.results.all.values()}
    assert [source for source in found if not known(source)] == []


def test_every_input_has_a_line(job: Worked) -> None:
    for one in job.results.all.values():
        assert one.inputs, one.name
        assert all(job.record.lines.get(path, 0) > 0 for path in one.inputs), one.name


def test_every_result_is_a_finite_number_with_a_unit(job: Worked) -> None:
    for one in job.results.all.values():
        assert math.isfinite(one.value), one.name
        assert math.isfinite(one.uncertainty), one.name
        assert one.uncertainty >= 0, one.name
        assert one.unit, one.name
