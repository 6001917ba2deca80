"""Nobody is told that no danger was seen where nobody looked."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from generator.record.load import Workspace
from generator.worked import work_out

LARCH = "demo-larch-hollow"
Change = Callable[..., Workspace]


def danger_without(with_job: Change, *keys: str, surface: bool) -> tuple[str, str]:
    def edit(data: dict) -> None:
        for key in keys:
            data.pop(key)
        if not surface:
            for area in data["absorption_areas"]:
                area.pop("surface")

    worked = work_out(with_job(LARCH, edit), LARCH)
    danger = worked.answers[0]
    return danger.word, danger.sentence


def test_no_danger_is_told_only_where_someone_looked(with_job: Change) -> None:
    word, said = danger_without(with_job, "walkover", surface=False)
    assert word == "not shown"
    assert said == (
        "Neither a walk over the lot nor the ground over the absorption area was "
        "noted, so nobody can say."
    )


@pytest.mark.parametrize(("keys", "surface"), [(("walkover",), True), ((), False)])
def test_a_walk_or_the_ground_over_the_area_is_a_look(
    with_job: Change, keys: tuple[str, ...], surface: bool
) -> None:
    word, said = danger_without(with_job, *keys, surface=surface)
    assert word == "none seen"
    assert said.startswith("The covers were found sound")


def test_buried_covers_are_not_called_sound(with_job: Change) -> None:
    workspace = with_job(LARCH, lambda data: data["tanks"][0].update(cover="buried"))
    danger = work_out(workspace, LARCH).answers[0]
    assert danger.sentence.startswith(
        "No danger was noted on the day. Only a laboratory"
    )


def test_a_walk_that_says_nothing_of_sewage_is_no_look(with_job: Change) -> None:
    """Tracks of vehicles were looked for; whether sewage showed, nobody wrote down."""

    def tracks_only(data: dict) -> None:
        data["walkover"] = {"vehicles": "no"}
        for area in data["absorption_areas"]:
            area.pop("surface")

    danger = work_out(with_job(LARCH, tracks_only), LARCH).answers[0]
    assert danger.word == "not shown"
    assert danger.sentence.endswith("so nobody can say.")
