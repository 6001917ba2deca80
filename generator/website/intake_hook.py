"""The text that git runs before a commit, to hold back a photograph that tells more."""

from __future__ import annotations

# Files that tell as much as a photograph does, whether a job may name them or not.
TELLING = (
    *(".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif", ".hif", ".avif"),
    *(".dng", ".gif", ".tif", ".tiff", ".mov", ".mp4"),
)
TEXT = """\
#!/bin/sh
# Holds a commit back while a photograph in it carries more than its picture.
# Looks at what is to be committed, which may differ from what lies in the folder.
set -eu
staged=$(mktemp -d)
trap 'rm -rf "$staged"' EXIT
git diff --cached --name-only --diff-filter=ACMRT -z -- {patterns} |
  git checkout-index -z --stdin --prefix="$staged/"
cd "$staged"
find . -type f -exec {command} intake --check {{}} +
"""


def hook_text(command: str = "onlot") -> str:
    """Write the text of a git hook that checks the photographs of a commit.

    Parameters
    ----------
    command : str
        How ``onlot`` is called, as a shell reads it.

    Returns
    -------
    str
        A shell script, for ``.git/hooks/pre-commit``.

    Examples
    --------
    >>> hook_text().splitlines()[-1]
    'find . -type f -exec onlot intake --check {} +'
    """
    patterns = " ".join(f"':(icase)*{ending}'" for ending in TELLING)
    return TEXT.format(patterns=patterns, command=command)
