"""The five answers of the first page, each from the findings behind it."""

from __future__ import annotations

from generator.findings.finding import Answer, Finding
from generator.results.asked import CONFIRM
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.result import Results, nominal
from generator.results.separation import DRINKING_WATER, ON_PLAN, Pair
from generator.results.taped_against_plan import speaking

COVERS_NOT_NOTED = ("cover-not-noted", "tanks-not-noted")  # keys of on_silence.py
GROUND_OF_AN_AREA = "-surface"  # keys of on_absorption.py
# Keys of on_walkover.py that stand on a look at the ground itself.
WALK_SAW_GROUND = ("walk", "walk-sewage-on-ground", "walk-wet-ground")
COVER = "-cover"  # keys of on_covers.py
PIT_TESTS = ("cesspool-test", "seepage-pit-test")  # no limits: any other word wins
WATER_TESTS = ("load-test", "two-day-test")  # one that shows it is enough
NOT_SEEN = "Not seen: "  # how the title of such a finding begins
DRINKING_ENDINGS = tuple(f"to-{word.replace(' ', '-')}" for word in DRINKING_WATER)
MOST_TO_DO = 3  # things to do first on the short answer; our choice, one phone screen


def answers(findings: list[Finding], results: Results) -> list[Answer]:
    """Answer the five questions."""
    return [
        _danger(findings, results),
        _takes_water(findings),
        _drinking_water(findings, results),
        _to_do(findings),
        _unseen(findings),
    ]


def first_to_do(findings: list[Finding]) -> list[Finding]:
    """Give the things to do first: worst weights, and only what has a deed."""
    deeds = [
        finding
        for finding in findings
        if finding.todo and finding.weight in ("danger", "failed", "repair", "watch")
    ]
    return deeds[:MOST_TO_DO]


def _danger(findings: list[Finding], results: Results) -> Answer:
    found = [finding for finding in findings if finding.weight == "danger"]
    question = "Is anyone in danger?"
    if found:
        said = " ".join(f"{finding.title}." for finding in found)
        return Answer(question, "yes", said, _keys(found), "danger")
    if any(finding.key.endswith(COVERS_NOT_NOTED) for finding in findings):
        said = "The state of the tank covers was not noted, so nobody can say."
        return Answer(question, "not shown", said, (), "unseen")
    if not any(map(_ground_was_seen, findings)):
        said = (
            "Neither a walk over the lot nor the ground over the absorption area was "
            "noted, so nobody can say."
        )
        return Answer(question, "not shown", said, (), "unseen")
    said = "No danger was noted on the day."
    if _covers_are_sound(findings):
        said = "The covers were found sound, and no danger was noted."
    if any(pair.feature in DRINKING_WATER for pair in results.parts["pairs"]):
        said += " Only a laboratory can judge well water."
    return Answer(question, "none seen", said, (), "sound")


def _ground_was_seen(finding: Finding) -> bool:
    """Say whether a finding stands on a look at the ground: a walk, or an area."""
    if finding.key.endswith(GROUND_OF_AN_AREA):
        return "unseen" not in (finding.weight, finding.was)
    return finding.key in WALK_SAW_GROUND


def _covers_are_sound(findings: list[Finding]) -> bool:
    covers = [one.weight for one in findings if one.key.endswith(COVER)]
    return bool(covers) and set(covers) == {"sound"}


def _takes_water(findings: list[Finding]) -> Answer:
    question = "Does the system take the water it is given?"
    speaking = [
        finding
        for finding in findings
        if finding.takes_water and not _weighed_away(finding)
    ]
    bad = [finding for finding in speaking if finding.takes_water == "no"]
    if bad:
        said = f"{bad[0].title}."
        return Answer(question, "no", said, _keys(bad), "failed")
    good = [finding for finding in speaking if finding.takes_water == "yes"]
    shown = any(finding.key in WATER_TESTS for finding in good)
    doubtful = [
        finding
        for finding in speaking
        if finding.takes_water == "not shown"
        and not (shown and finding.key in WATER_TESTS)
        and not (good and finding.key in PIT_TESTS)
    ]
    if doubtful or not good:
        said = doubtful[0].saw if doubtful else "Nothing at this visit shows it."
        return Answer(question, "not shown", said, _keys(doubtful), "unseen")
    repairs = [
        finding
        for finding in findings
        if finding.weight in ("failed", "repair") and _on_the_way(finding)
    ]
    if repairs:
        titles = "; ".join(_lower(finding.title) for finding in repairs[:2])
        said = f"It took the test water. To mend: {titles}."
        return Answer(
            question, "yes, with repairs", said, _keys(good + repairs), "repair"
        )
    return Answer(question, "yes", f"{good[0].title}.", _keys(good), "sound")


def _weighed_away(finding: Finding) -> bool:
    return bool(finding.was) and finding.weight not in ("danger", "failed")


def _on_the_way(finding: Finding) -> bool:
    return not finding.key.endswith(DRINKING_ENDINGS)


def keys_of(pairs: list[Pair]) -> tuple[str, ...]:
    """Give the keys of the findings on distances."""
    return tuple(map(distance_key, pairs))


def distance_key(pair: Pair) -> str:
    """Give the key of the finding on a distance."""
    return pair.result.partition(".")[2].replace("_", "-")


def _drinking_water(findings: list[Finding], results: Results) -> Answer:
    question = "Is it far enough from drinking water?"
    pairs = [
        pair
        for pair in speaking(results.parts["pairs"])
        if pair.feature in DRINKING_WATER
    ]
    keys = keys_of(pairs)
    short = [pair for pair in pairs if pair.verdict == SHORT]
    if short:
        worst = min(short, key=_room)
        said = f"{_said(worst)} of new systems. Test the water."
        return Answer(question, "no", said, keys_of([worst]), "repair")
    close = [pair for pair in pairs if pair.verdict == CLOSE]
    if close:
        said = f"{_said(close[0])}, which is within what we can measure."
        return Answer(question, "too close to call", said, keys_of(close), "watch")
    asked_more = [pair for pair in pairs if pair.verdict == CONFIRM and pair.row]
    if asked_more and all(pair.verdict in (MEETS, CONFIRM) for pair in pairs):
        pair = asked_more[0]
        more = _may_be_more(pair)
        said = f"{_said(pair)}{more}: ask the authority, and test the water."
        return Answer(question, "too close to call", said, keys_of(asked_more), "watch")
    if pairs and all(pair.verdict == MEETS for pair in pairs):
        nearest = min(pairs, key=_room)
        said, keys = f"{_said(nearest)}.", keys_of([nearest])
        if any(finding.takes_water == "no" for finding in findings):
            said += " Have the water tested all the same: sewage may be loose."
        return Answer(question, "yes", said, keys, "sound")
    said = "No distance to drinking water was measured against a figure we could read."
    return Answer(question, "not measured", said, keys, "unseen")


def _may_be_more(pair: Pair) -> str:
    """Say in short why a figure is not sure; the finding says it in full."""
    if pair.judged.may_ask is not None:
        return f", or {pair.judged.may_ask} ft of some"
    return ", by a figure from memory"


def _room(pair: Pair) -> float:
    asked = pair.row.feet if pair.row else 0
    return nominal(pair.measured_ft) - asked


def _said(pair: Pair) -> str:
    asked = pair.row.feet if pair.row else 0
    plan = f" {pair.how}" if pair.how == ON_PLAN else ""
    return f"{pair.label}: {pair.typed}{plan} where {asked} ft are asked"


def _to_do(findings: list[Finding]) -> Answer:
    question = "What has to be done, by whom, by when?"
    first = first_to_do(findings)
    if all(finding.weight == "unseen" for finding in findings):
        said = "Too little was looked at to say."
        return Answer(question, "not shown", said, (), "unseen")
    if not first:
        return Answer(question, "nothing now", "Keep to the care page.", (), "sound")
    one = first[0]
    who = f" ({one.who}, {one.by})" if one.who and one.by else ""
    more = sum(bool(f.todo and f.by) for f in findings)
    word = {0: "look again"}.get(more, f"{more} thing{'s' * (more != 1)}")
    todo = one.todo.split(". ")[0].rstrip(".")
    return Answer(question, word, f"First: {todo}{who}.", _keys(first), one.weight)


def _unseen(findings: list[Finding]) -> Answer:
    question = "What could not be seen?"
    found = [finding for finding in findings if finding.weight == "unseen"]
    if not found:
        said = "Every part that this kind of inspection looks at was looked at."
        return Answer(question, "nothing", said, (), "sound")
    titles = [finding.title.removeprefix(NOT_SEEN) for finding in found]
    listed = titles[0]
    rest = f"; and {len(found) - 1} more" if len(found) > 1 else ""
    count = f"{len(found)} thing{'s' * (len(found) != 1)}"
    return Answer(
        question,
        count,
        f"{listed[:1].upper()}{listed[1:]}{rest}.",
        _keys(found),
        "unseen",
    )


def _lower(title: str) -> str:
    return title[:1].lower() + title[1:]


def _keys(findings: list[Finding]) -> tuple[str, ...]:
    return tuple(finding.key for finding in findings)
