"""The evidence of a site: record.json lists a digest of each of its files.

The pages print the digest of record.json, and record.json lists the digests of the
pages. So where a page prints it, it counts as ``BLANK`` for the digest of that page.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from pathlib import Path

from generator.atomic import put
from generator.website.shared import ASSETS, copy_name, led_page, way_to

RECORD = "record.json"
BLANK = "0" * 64  # as long as a SHA-256 in hexadecimal
PRINTED_IN = {".html", ".json"}  # what may print the digest of record.json
RULE = (
    "Each entry under files is the SHA-256 digest of one file of this report, as it "
    "was published.",
    "Each entry under theme is that of a file which the pages load. The folder tells "
    "where these files stand, seen from this report.",
    "Pages print the digest of this file, which therefore cannot hold their digests "
    "as they stand. In each file of this report whose name ends in .html or .json, "
    "first put 64 zeros wherever the digest of this file stands. Then work out the "
    "digest.",
    "What the report was made from stands under made_of: the versions of the "
    "programs, and the digest of each file by its path in the folder of the firm or "
    "of onlot.",
)


def begin(docs: Path, made_of: Mapping[str, object]) -> None:
    """Put a record without digests of pages into a page tree, so that links lead to it.

    Parameters
    ----------
    docs : pathlib.Path
        The docs folder of the page tree.
    made_of : Mapping[str, object]
        What the site is made from; it can be written as JSON.
    """
    put(docs / RECORD, _written({"made_of": made_of}))


def prove(site: Path, made_of: Mapping[str, object]) -> str:
    """Write the evidence of a built site, and print its digest on the pages.

    Parameters
    ----------
    site : pathlib.Path
        A site as it was built, whose pages print ``BLANK`` for the digest.
    made_of : Mapping[str, object]
        What the site was made from; it can be written as JSON.

    Returns
    -------
    str
        The SHA-256 of record.json, which now stands in place of ``BLANK``.
    """
    content = _written(
        {
            "how_to_check": RULE,
            "files": {name: digest_of(data) for name, data in _published(site)},
            "made_of": made_of,
            "theme": _theme(site / ASSETS),
        }
    )
    put(site / RECORD, content)
    digest = digest_of(content)
    for path in _own(site):
        if path.suffix in PRINTED_IN:
            data = path.read_bytes()
            path.write_bytes(data.replace(BLANK.encode(), digest.encode()))
    return digest


def digest_of(data: bytes) -> str:
    """Give the SHA-256 of a content in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def _written(told: Mapping[str, object]) -> bytes:
    text = json.dumps(told, indent=1, sort_keys=True, allow_nan=False)
    return f"{text}\n".encode("ascii")


def _published(site: Path) -> Iterator[tuple[str, bytes]]:
    """Give every file as it will be published, its pages led to the shared theme."""
    assets = site / ASSETS
    copy = copy_name(assets) if assets.is_dir() else ""
    for path in _own(site):
        led = copy and path.suffix == ".html" and path.parent == site
        content = led_page(path, copy) if led else path.read_bytes()
        yield path.relative_to(site).as_posix(), content


def _own(site: Path) -> list[Path]:
    """List the files of a site beside the theme's and the evidence."""
    files = (path for path in site.rglob("*") if path.is_file())
    left_out = (site / ASSETS, site / RECORD)
    return sorted(one for one in files if not {one, *one.parents} & {*left_out})


def _theme(assets: Path) -> dict[str, object]:
    if not assets.is_dir():
        return {"folder": "", "files": {}}
    files = sorted(path for path in assets.rglob("*") if path.is_file())
    return {
        "folder": way_to(copy_name(assets)),
        "files": {
            path.relative_to(assets).as_posix(): digest_of(path.read_bytes())
            for path in files
        },
    }
