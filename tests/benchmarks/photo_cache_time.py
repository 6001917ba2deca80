"""Time preparing twelve photographs of 12 megapixels the first time and again.

Run from the top of the project with ``python tests/benchmarks/photo_cache_time.py``. It
prints medians and their ratio; 0.1 is the most to accept. The pictures are noise over
soft shades, as heavy to decode as a telephone's.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from pathlib import Path

import numpy as np
from PIL import Image

from generator.website.photo_cache import PhotoCache

PHOTOGRAPHS = 12
WIDE, HIGH = 4000, 3000  # 12 megapixels
NOISE = 24  # of 256 shades; our choice, which gives some 5 MB as a JPEG
QUALITY = 90  # our choice, near what telephones write
RUNS = 3


def photographs(folder: Path) -> list[Path]:
    """Write the pictures, the same each time."""
    chance = np.random.default_rng(1)
    across = np.linspace(40, 200, WIDE)[None, :, None]
    down = np.linspace(0.5, 1.0, HIGH)[:, None, None]
    paths = []
    for number in range(PHOTOGRAPHS):
        noise = chance.integers(-NOISE, NOISE, (HIGH, WIDE, 3))
        shades = (across * down + noise).clip(0, 255).astype(np.uint8)
        paths.append(folder / f"{number:02}.jpg")
        Image.fromarray(shades).save(paths[-1], quality=QUALITY)
    return paths


def seconds(paths: list[Path], build: Path | None) -> float:
    """Time preparing all of them. [s]"""
    start = time.perf_counter()
    cache = PhotoCache(build)
    for path in paths:
        cache.two_sizes(path)
    return time.perf_counter() - start


def main() -> None:
    """Prepare them with no cache, into a new one and out of it; print the table."""
    with tempfile.TemporaryDirectory() as name:
        paths = photographs(Path(name))
        none, first, again = [], [], []
        for run in range(RUNS):
            build = Path(name) / f"build-{run}"
            none.append(seconds(paths, None))
            first.append(seconds(paths, build))
            again.append(seconds(paths, build))
        size = sum(path.stat().st_size for path in paths) / PHOTOGRAPHS / 1e6
    plain = statistics.median(none)
    print(f"{PHOTOGRAPHS} photographs of {size:.1f} MB, {RUNS} runs each")
    for what, times in (("no cache", none), ("first", first), ("again", again)):
        median = statistics.median(times)
        print(f"{what:10}{median:7.3f} s   ratio {median / plain:6.3f}")


if __name__ == "__main__":
    main()
