"""The coordinates of every place, with how sure each is and what it shares."""

from __future__ import annotations

from cmath import exp
from collections.abc import Mapping
from dataclasses import dataclass
from math import pi, radians

from uncertainties import covariance_matrix, ufloat

from generator.problems import Problem
from generator.record.model import Record
from generator.record.plan import Datum, Place
from generator.results.places import way_of
from generator.results.plane import Ellipse, Known, ellipse_of
from generator.results.result import Number, Result, Symbol, standard
from generator.results.ties import Fix, Leg
from generator.results.whereabouts import whereabouts_result

FLATTEST_DEG, WIDEST_DEG = 30.0, 150.0  # of ties; common practice, no source
POOR_ANGLE = "ties cross at a poor angle"
NORTH_UP = "north is that of the bearing given for the base line, taken as it stands"
KEYS = {
    "ties": ("ties", "side"),
    "offset": ("from", "toward", "along", "out", "side"),
    "bearing": ("from", "bearing", "distance"),
    "pipe": ("run", "at"),
    "nothing": ("name",),
}
ALONG_A_LINE = (
    "x = x1 + (a × (x2 − x1) − b × (y2 − y1)) / d",
    "y = y1 + (a × (y2 − y1) + b × (x2 − x1)) / d",
)
LONG_AXIS = "√((xx + yy) / 2 + √(((xx − yy) / 2)² + xy²))"
BEST_FIT = "the place at which the sum of ((distance - tie) / u)² is least"


@dataclass(frozen=True)
class Spot:
    """A point of the plan; its coordinates keep what they share with other points.

    ``residual_ft`` is the most that a tie is off after the fit of three or more;
    ``crossing_deg`` the angle of the two ties that cross best. [ft], [degree]
    """

    name: str
    what: str
    x_ft: Number
    y_ft: Number
    residual_ft: float | None
    crossing_deg: float | None
    how: str
    assumptions: tuple[str, ...]
    leg: Leg | None = None
    turned: bool = False

    @property
    def covariance(self) -> tuple[float, float, float]:
        """The variances of x and y with their covariance: xx, xy, yy. [ft²]"""
        return covariance_of(self.x_ft, self.y_ft)

    @property
    def ellipse(self) -> Ellipse:
        """The standard ellipse (k = 1)."""
        return ellipse_of(*self.covariance)

    @property
    def poor(self) -> bool:
        """Whether the ties cross so flatly that the place is poorly held."""
        angle = self.crossing_deg
        return angle is not None and not FLATTEST_DEG <= angle <= WIDEST_DEG


def covariance_of(x_ft: Number, y_ft: Number) -> tuple[float, float, float]:
    """Give the covariance of two coordinates.

    Parameters
    ----------
    x_ft, y_ft : float
        The coordinates, with or without uncertainty. [ft]

    Returns
    -------
    tuple of float
        The variance of x, the covariance, the variance of y. [ft²]

    Notes
    -----
    Source: [GUM], 5.2.2.

    Examples
    --------
    >>> x = ufloat(3.0, 2.0)
    >>> covariance_of(x, 2 * x), covariance_of(3.0, x)
    ((4.0, 8.0, 16.0), (0.0, 0.0, 4.0))
    """
    both = [one for one in (x_ft, y_ft) if standard(one) > 0]
    shared = covariance_matrix(both)[0][1] if both[1:] else 0.0
    return standard(x_ft) ** 2, float(shared), standard(y_ft) ** 2


def locate(record: Record) -> tuple[dict[str, Spot], list[Problem]]:
    """Find every point of a record, by name, and what keeps the others from it."""
    found = whereabouts_result(record)
    datum = record.inspection.datum
    turn = _turn(datum)
    readings: dict[str, Number] = {}
    spots = {
        name: _spot(place, found.fixes[name], turn, readings)
        for name, place in found.places.items()
        if name in found.fixes
    }
    return spots, found.problems(record)


def _turn(datum: Datum | None) -> complex | None:
    """Give the turn from the base line to a plan with north up, where it is known."""
    if datum is None or datum.bearing is None:
        return None
    return exp(1j * (pi / 2 - radians(datum.bearing.degrees)))


def _spot(
    place: Place, fix: Fix, turn: complex | None, readings: dict[str, Number]
) -> Spot:
    known = fix.known.turned(turn) if turn else fix.known
    leg = fix.leg
    if leg and turn:
        start, toward = leg.start.turned(turn), leg.toward.turned(turn)
        leg = Leg(start, toward, leg.along_ft, leg.out_ft)
    x_ft, y_ft = _numbers(known, readings)
    return Spot(
        place.name,
        place.what or "",
        x_ft,
        y_ft,
        fix.residual_ft,
        fix.crossing_deg,
        fix.how,
        (*fix.assumptions, NORTH_UP) if turn else fix.assumptions,
        leg,
        turn is not None,
    )


def _numbers(known: Known, readings: dict[str, Number]) -> tuple[Number, Number]:
    """Add up what each reading shifts; the readings are shared by all points."""
    x_ft: Number = known.at.real
    y_ft: Number = known.at.imag
    for key, shift in known.shifts.items():
        off = readings.setdefault(key, ufloat(0.0, 1.0, key))
        x_ft += shift.real * off if shift.real else 0.0
        y_ft += shift.imag * off if shift.imag else 0.0
    return x_ft, y_ft


def location_results(spots: Mapping[str, Spot], record: Record) -> list[Result]:
    """List where each place is, how sure that is and how its ties fit."""
    inspection = record.inspection
    fixed = inspection.datum.points if inspection.datum else ()
    names = [one.name for one in fixed[:2]]
    corners = {one.name for one in fixed}
    results: list[Result] = []
    done = set(corners)
    for place in inspection.places:
        if place.name in spots and place.name not in done:
            done.add(place.name)
            results += _of_place(place, spots[place.name], record, names)
    return results


def _of_place(
    place: Place, spot: Spot, record: Record, names: list[str]
) -> list[Result]:
    given = _inputs(place, record)
    said = f"{spot.name}, {spot.what}" if spot.what else spot.name
    source = "MAHUN-LS" if spot.residual_ft is not None else "GEOMETRY"
    formulas, symbols = _working(spot)
    ways = _ways(spot, names)
    found = [
        Result(
            f"place.{spot.name}.{axis}",
            f"{said}: {way}",
            number,
            "ft",
            formula,
            symbols,
            given,
            source,
            spot.assumptions,
        )
        for axis, way, number, formula in zip(
            "xy", ways, (spot.x_ft, spot.y_ft), formulas, strict=True
        )
    ]
    found.append(_give_or_take(spot, said, given))
    if spot.residual_ft is not None:
        found.append(_residual(spot, said, given))
    return found


def _give_or_take(spot: Spot, said: str, given: tuple[str, ...]) -> Result:
    xx, xy, yy = spot.covariance
    return Result(
        f"place.{spot.name}.give_or_take",
        f"{said}: how far it may be off, half the long axis of its standard ellipse",
        spot.ellipse.major_ft,
        "ft",
        LONG_AXIS,
        (
            Symbol("xx", xx, "ft²", "variance of x"),
            Symbol("xy", xy, "ft²", "covariance of x and y"),
            Symbol("yy", yy, "ft²", "variance of y"),
        ),
        given,
        "MAHUN-LS",
        spot.assumptions,
        POOR_ANGLE if spot.poor else "",
    )


def _residual(spot: Spot, said: str, given: tuple[str, ...]) -> Result:
    return Result(
        f"place.{spot.name}.residual",
        f"{said}: most that a tie is off from the best fit",
        spot.residual_ft,
        "ft",
        "largest difference between a tie and the distance to the place",
        (),
        given,
        "MAHUN-LS",
        spot.assumptions,
    )


def _ways(spot: Spot, names: list[str]) -> tuple[str, str]:
    first, second = ([*names, "the first point", "the second"])[:2]
    if spot.turned:
        return f"east of {first}", f"north of {first}"
    line = f"the line from {first} toward {second}"
    return f"along {line}", f"to the left of {line}"


def _inputs(place: Place, record: Record) -> tuple[str, ...]:
    keys = (*KEYS[way_of(place)], "by", "give_or_take")
    paths = [place.path(key) for key in keys]
    if record.inspection.datum and record.inspection.datum.bearing:
        paths.append(record.inspection.datum.path("bearing"))
    return tuple(path for path in paths if path in record.lines)


def _working(spot: Spot) -> tuple[tuple[str, str], tuple[Symbol, ...]]:
    if spot.leg is None:
        return (BEST_FIT, BEST_FIT), ()
    start, toward = spot.leg.start.at, spot.leg.toward.at
    return ALONG_A_LINE, (
        Symbol("x1", start.real, "ft", "x of the point it is measured from"),
        Symbol("y1", start.imag, "ft", "y of the point it is measured from"),
        Symbol("x2", toward.real, "ft", "x of the point it is measured toward"),
        Symbol("y2", toward.imag, "ft", "y of the point it is measured toward"),
        Symbol("d", abs(toward - start), "ft", "distance between the two points"),
        Symbol("a", spot.leg.along_ft, "ft", "distance along their line"),
        Symbol("b", spot.leg.out_ft, "ft", "distance out to its left"),
    )
