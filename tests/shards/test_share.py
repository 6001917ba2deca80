"""Every job is in one share, and the same on every machine."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.shards.share import Share, share_of
from tests.shards.conftest import Firm


@pytest.mark.parametrize("count", [1, 2, 3, 7, 12])
def test_every_job_is_in_one_share_and_shares_are_even(count: int) -> None:
    jobs = [f"job-{number}" for number in (5, 3, 9, 1, 12, 7, 4)]
    shares = [Share(number, count).of(jobs) for number in range(1, count + 1)]
    assert sorted(job for share in shares for job in share) == sorted(jobs)
    assert max(map(len, shares)) - min(map(len, shares)) <= 1
    assert shares[0] == Share(1, count).of(reversed(jobs))


@pytest.mark.parametrize(
    "typed",
    ["", "1", "0/2", "3/2", "1/0", "-1/2", "1/2/3", "1 /2", "01/2", "1/²", "a/b"],
)
def test_another_way_of_writing_is_wrong_use(typed: str) -> None:
    assert share_of(typed) is None
    run = CliRunner().invoke(main, ["build", f"--shard={typed}"])
    assert run.exit_code == 2
    assert run.output.splitlines()[-1] == (
        f"Error: Invalid value for '--shard': \"{typed}\" is no share; write I/N, such "
        "as 2/5, with I from 1 to N."
    )


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["ash"], "--shard builds its share of all jobs: name no job with it."),
        (
            ["--remove-strays"],
            "--shard publishes nothing: give --remove-strays to onlot merge.",
        ),
    ],
)
def test_what_a_share_cannot_be_asked_for_with(
    firm: Firm, words: list[str], told: str
) -> None:
    run = firm.ask("build", "--shard", "1/2", *words)
    assert run.exit_code == 2
    assert run.output.splitlines()[-1] == f"Error: {told}"
    assert not (firm.root / "build").exists()
