"""How a long build shows that it goes on: a bar on a terminal, a few lines elsewhere.

The clock is read for the eye alone; nothing of it reaches a page.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from typing import Any

import click

Done = Callable[[str], None]
Watch = Callable[[int], AbstractContextManager[Done]]

EACH = 100  # jobs after which a log gets a line; our choice
SECONDS = 10.0  # or after so long, where jobs are slow; our choice


@contextmanager
def silent(count: int) -> Iterator[Done]:  # as the others take it
    """Show nothing."""
    yield lambda job: None  # as the others take it


@contextmanager
def bar(count: int) -> Iterator[Done]:
    """Show a bar with count, rate and time left."""
    if not count:
        yield lambda job: None  # as the others take it
        return
    began = time.monotonic()
    shown: Any  # click gives its bar no public type
    with click.progressbar(
        length=count,
        label="Building",
        file=sys.stderr,
        show_pos=True,
        item_show_func=lambda rate: f"{rate:.1f} jobs/s" if rate else "",
    ) as shown:

        def done(job: str) -> None:  # as the others take it
            spent = time.monotonic() - began
            shown.update(1, (shown.pos + 1) / spent if spent else 0.0)

        yield done


@contextmanager
def lines(count: int) -> Iterator[Done]:
    """Write a line now and then, so that a log of thousands stays readable."""
    state = {"done": 0, "told": time.monotonic()}

    def done(job: str) -> None:  # as the others take it
        state["done"] += 1
        now = time.monotonic()
        if state["done"] % EACH and now - state["told"] < SECONDS:
            return
        if state["done"] < count:
            state["told"] = now
            click.echo(f"{state['done']:,.0f} of {count:,} jobs built", err=True)

    yield done


def watch(*, quiet: bool) -> Watch:
    """Choose how to show it."""
    if quiet:
        return silent
    return bar if sys.stderr.isatty() else lines
