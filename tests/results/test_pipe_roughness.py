"""The table of roughness against the lists it was taken from."""

from __future__ import annotations

import pytest
from published import ENTRIES, Entry, entry
from result_builders import make_run, sight

from generator.quantity import Number
from generator.results.roughness import OTHER_FIGURES, ROUGHNESS, SAID_BY, Roughness
from generator.sources import SOURCES


def given(value: float, by: str | None = None) -> Roughness:
    """Take the roughness of a run that gives its own figure."""
    run = make_run(sight(1.0), roughness=Number(value, f"{value:g}"), roughness_from=by)
    return Roughness.of(run, "PVC")


@pytest.mark.parametrize(
    ("one", "material"),
    [
        (ENTRIES["n-concrete"], "concrete"),
        (ENTRIES["n-HDPE"], "HDPE"),
        (ENTRIES["n-PVC"], "PVC"),
        (ENTRIES["n-vitrified_clay"], "clay"),
        (ENTRIES["n-cast_iron"], "cast iron"),
        (ENTRIES["n-brick"], "brick"),
    ],
)
def test_roughness(one: Entry, material: str) -> None:
    """Source: city code of Winchester, Indiana, Table 4."""
    assert ROUGHNESS[material] == (one["expected"]["n"], "WINCHESTER-N")


@pytest.mark.parametrize("one", [entry("n-pvc-maker")])
def test_a_maker_says_less_for_pvc(one: Entry) -> None:
    """Source: technical note of a maker of PVC pipe."""
    assert OTHER_FIGURES["PVC"] == (one["expected"]["n"], "PVC-MAKER-N")


@pytest.mark.parametrize("one", [entry("n-textbook")])
def test_the_older_list(one: Entry) -> None:
    """Source: Dingman Township, Pa., Appendix B.5."""
    vitrified, tile, concrete = one["expected"]["n"]
    assert ROUGHNESS["clay"][0] == vitrified
    assert OTHER_FIGURES["clay"] == (tile, "DINGMAN-N")
    assert OTHER_FIGURES["concrete"] == (concrete, "DINGMAN-N")


@pytest.mark.parametrize("name", ["ABS", "bituminized fiber", "unknown"])
def test_what_no_source_gives_says_so(name: str) -> None:
    """Common practice, no source."""
    said = Roughness.of(make_run(sight(1.0)), name).said
    assert said.endswith("common practice, no source")


def test_a_sourced_figure_names_its_source_and_the_other_one() -> None:
    assert Roughness.of(make_run(sight(1.0)), "PVC").said == (
        "roughness n 0.010 for PVC: city code of Winchester, Indiana, Table 4 "
        "(0.009 by a maker of PVC pipe)"
    )


def test_a_figure_of_the_job_replaces_the_table_and_says_who_gave_it() -> None:
    found = given(0.012, "the pipe maker's sheet")
    assert (found.value, found.given) == (0.012, True)
    assert found.said.endswith(
        "0.012 instead of the table, given by the pipe maker's sheet"
    )
    assert given(0.012).said.endswith("the inspector, who names no source for it")


def test_a_figure_of_nothing_is_no_figure() -> None:
    assert given(0.0) == Roughness.of(make_run(sight(1.0)), "PVC")


def test_each_roughness_has_a_source() -> None:
    for _, key in [*ROUGHNESS.values(), *OTHER_FIGURES.values()]:
        assert key in SOURCES
        assert key in SAID_BY
