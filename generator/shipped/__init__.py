"""Find the files that ship beside the code, in a checkout or in a wheel."""

from __future__ import annotations

from pathlib import Path

_CHECKOUT = Path(__file__).resolve().parent.parent.parent
_WHEEL = Path(__file__).resolve().parent


def shipped(name: str) -> Path:
    """Find a shipped file.

    Parameters
    ----------
    name : str
        Path below the top of the project, such as ``schemas/firm.schema.json``.

    Returns
    -------
    pathlib.Path
        The file in this checkout, or the copy that the wheel carries.
    """
    inside = _WHEEL / name
    return inside if inside.exists() else _CHECKOUT / name
