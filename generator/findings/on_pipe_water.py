"""Rules on deeper water in a pipe: sags, standing water, and water held back."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.criteria import DESIGNER
from generator.findings.finding import Finding, noted
from generator.record.pipes import LogEntry
from generator.results.pipe_inside import HELD, STANDING, Inside, Sight, Water
from generator.results.pipe_log import SETTLED_FEET

CONTRACTOR = "a licensed septic contractor"
UNMEASURED = "an unmeasured depth"


def water_findings(inside: Inside) -> Iterator[Finding]:
    """Judge each stretch of deeper water of one run.

    A tank that does not rise does not clear the absorption area where the camera is
    under water there: load test and camera are judged together (common practice, no
    source).
    """
    for water in inside.waters:
        if water.kind in (STANDING, HELD) and _in_the_field(inside, water):
            yield _field(inside, water)
        elif water.kind == STANDING:
            yield _standing(inside, water)
    for water in inside.sags:
        yield _sag(inside, water)


def stands_behind(inside: Inside, entry: LogEntry) -> tuple[str, Water | None]:
    """Say what water an entry holds back, and give that stretch."""
    for water in inside.held_back:
        if water.behind is entry:
            start = water.sights[0].entry.distance.typed
            words = f" Water stands behind it from {start}, up to {_deep(water)} deep."
            return words, water
    return "", None


def evidence_of(inside: Inside, water: Water | None) -> tuple[str, ...]:
    """Name the results that a stretch of water rests on."""
    if water is None:
        return ()
    key = f"pipe.{inside.run.name}"
    names = []
    for stretches, name in ((inside.sags, "sag"), (inside.held_back, "held_back")):
        names += [
            f"{key}.{name}.{number}"
            for number, one in enumerate(stretches, 1)
            if one is water
        ]
    if water.kind == STANDING:
        names.append(f"{key}.standing_from")
    names += [
        f"{key}.water.{number}"
        for number, sight in enumerate(inside.sights, 1)
        if any(sight is one for one in water.sights)
    ]
    names += [_expected(inside, sight) for sight in water.sights]
    return tuple(dict.fromkeys(name for name in names if name))


def pictures(names: list[str | None]) -> tuple[str, ...]:
    """List photographs, each once."""
    return tuple(dict.fromkeys(name for name in names if name))


def _in_the_field(inside: Inside, water: Water) -> bool:
    """Tell whether water stands in perforated pipe and never clears there."""
    holes = inside.perforated_ft
    if holes is None or inside.seen_to_ft < holes:
        return False
    return water.kind == STANDING or (water.clears is None and _ends_ft(water) >= holes)


def _ends_ft(water: Water) -> float:
    return water.start_ft + water.length_ft


def _field(inside: Inside, water: Water) -> Finding:
    return Finding(
        key=_key(inside),
        part=inside.run.name,
        weight="failed",
        title="Water stands in the absorption area",
        saw=_saw(inside, water),
        means="So a full absorption area looks from within, even where the tank does "
        "not rise; a pipe that is blocked farther on looks the same.",
        todo="Use as little water as can be, and have the absorption area looked at.",
        who=DESIGNER,
        by="now",
        evidence=evidence_of(inside, water),
        photos=_photos(water),
        source="practice",
        takes_water="no",
    )


def _standing(inside: Inside, water: Water) -> Finding:
    return Finding(
        key=_key(inside),
        part=inside.run.name,
        weight="repair",
        title=f"Water stands in the {inside.run.name}",
        saw=_saw(inside, water),
        means="What lies beyond holds it back: a blockage farther on, a pipe that "
        "rises, or an absorption area that is full. The log does not tell which.",
        todo="Find out what holds the water back beyond this pipe.",
        who=DESIGNER,
        by="before the sale closes",
        evidence=evidence_of(inside, water),
        photos=_photos(water),
        source="practice",
        takes_water="not shown",
    )


def _saw(inside: Inside, water: Water) -> str:
    start = f"In the {inside.run.name}, from {water.start_ft:g} ft on, water stood"
    depth = f" up to {_deep(water)} deep" if water.deepest_in is not None else ""
    return f"{start}{depth} and never cleared as far as the camera went."


def _sag(inside: Inside, water: Water) -> Finding:
    run, first, last = inside.run, water.sights[0].entry, water.sights[-1].entry
    near = _ends_ft(water) <= SETTLED_FEET or (last.distance.feet <= SETTLED_FEET)
    end = last.to or (last.distance if last is not first else None)
    stretch = first.distance.typed + (f" to {end.typed}" if end else "")
    lies = f"water lies {_deep(water)} deep"
    if water.deepest_in is None:
        lies = "the pipe was logged as a sag, and no depth was written down"
    clears = " and clears beyond" if water.end_ft is not None else ""
    return Finding(
        key=f"{run.name}-sag-{water.start_ft:g}".replace(" ", "-"),
        part=run.name,
        weight="watch",
        title="The pipe has settled beside the tank" if near else "The pipe sags",
        saw=f"At {stretch} {lies}{clears}."
        + "".join(noted(sight.entry.note) for sight in water.sights),
        means="The first feet of pipe out of a tank have usually settled. It is no "
        "failure while water passes."
        if near
        else "Solids can settle there.",
        todo="Have a camera look at it again.",
        who=CONTRACTOR,
        by="the next inspection",
        evidence=evidence_of(inside, water),
        photos=_photos(water),
        source="practice",
    )


def _key(inside: Inside) -> str:
    return f"{inside.run.name}-standing-water".replace(" ", "-")


def _deep(water: Water) -> str:
    depth = water.deepest.entry.water
    return depth.typed if depth else UNMEASURED


def _photos(water: Water) -> tuple[str, ...]:
    return pictures([sight.entry.photo for sight in water.sights])


def _expected(inside: Inside, sight: Sight) -> str:
    if sight.reach.expected_in is None:
        return ""
    return f"pipe.{inside.run.name}.expected{inside.suffix(sight.reach)}"
