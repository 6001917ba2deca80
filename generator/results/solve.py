"""Find where a rising function meets zero, by halving the interval."""

from __future__ import annotations

from collections.abc import Callable

HALVINGS = 60  # an interval of 20 ft shrinks below 1e-15 in; our choice


def rising_root(function: Callable[[float], float], low: float, high: float) -> float:
    """Find the argument at which a rising function is zero.

    Parameters
    ----------
    function : callable
        A function of one number that rises from ``low`` to ``high``. [any]
    low, high : float
        Ends of the interval; the nearer end is given where the root lies outside.
        [unit of the argument]

    Returns
    -------
    float
        The argument. [unit of the argument]

    Notes
    -----
    Bisection; source: [Press2007], 9.1.1.

    Examples
    --------
    >>> round(rising_root(lambda x: x * x - 2, 0.0, 2.0), 6)
    1.414214
    """
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if function(middle) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2
