"""Each kind of edit is told in one sentence, and no edit is left untold."""

from __future__ import annotations

import copy
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.record.check import schema
from generator.record.keys import all_keys
from generator.record.listed import listed
from generator.record.one_line import written_out
from generator.record.read import read
from generator.trail.change_words import ENTRIES, LONGEST_TEXT, title
from generator.trail.changes import Change, changes

TOP = Path(__file__).resolve().parent.parent.parent
DEMONSTRATIONS = [
    TOP / "inspections" / f"demo-{name}.yaml"
    for name in ("cattail-lake", "larch-hollow")
]
GOOD = sorted((TOP / "tests" / "jobs" / "good").glob("*.yaml"))
Data = dict[str, Any]
Edit = Callable[[Data], object]
NOTE = "The cover was fenced. " * 12
CUT = "The cover was fenced. " * 5 + "The cover…"


def data_of(path: Path) -> Data:
    rules = schema("inspection")
    return listed(written_out(read(path), rules), rules).data


DATA = {path.stem: data_of(path) for path in [*DEMONSTRATIONS, *GOOD]}
LAKE, HOLLOW, NEW = "demo-cattail-lake", "demo-larch-hollow", "everything-new"
PIT, AGAIN = "system-cesspool", "system-second-visit-after-repair"


def told(job: str, edit: Edit) -> list[str]:
    """Tell what one edit of a job changes."""
    after = copy.deepcopy(DATA[job])
    edit(after)
    return [str(one) for one in changes(DATA[job], after)]


def move(entries: list[Any], old: int, new: int) -> None:
    entries.insert(new, entries.pop(old))


# fmt: off
EDITS: list[tuple[str, str, Edit, list[str]]] = [
    ("a measured value", HOLLOW,
     lambda d: d["tanks"][0].update(sludge="14 in"),
     ['sludge, tank "tank": 11 in → 14 in']),
    ("a unit", HOLLOW,
     lambda d: d["tanks"][0].update(length="96 in"),
     ['inside length, tank "tank": 8 ft → 96 in']),
    ("a value of a section", HOLLOW,
     lambda d: d["property"].update(bedrooms=4),
     ["bedrooms, property: 3 → 4"]),
    ("a listed value", HOLLOW,
     lambda d: d["visit"].update(ground="moist"),
     ["ground, visit: dry → moist"]),
    ("a text", HOLLOW,
     lambda d: d["visit"].update(weather="dry"),
     ['weather, visit: "dry, 54 F, no rain for nine days" → "dry"']),
    ("a value added", PIT,
     lambda d: d["visit"].update(license="X-1 (invented)"),
     ['license, visit: added "X-1 (invented)"']),
    ("a value taken out", LAKE,
     lambda d: d["load_test"].pop("target"),
     ["target, load test: took out 150 gal"]),
    ("the state", LAKE,
     lambda d: d.update(state="draft"),
     ["state of the file: final → draft"]),
    ("a key with nothing behind it", LAKE,
     lambda d: d["visit"].update(weather=None),
     ['weather, visit: "overcast, 41 F, light rain the day before" → (nothing)']),
    ("a key begun", PIT,
     lambda d: d["visit"].update(license=None),
     ["license, visit: added (nothing)"]),
    ("an empty text", LAKE,
     lambda d: d["visit"].update(weather=""),
     ['weather, visit: "overcast, 41 F, light rain the day before" → (nothing)']),
    ("a number made a text", LAKE,
     lambda d: d["property"].update(bedrooms="4"),
     ['bedrooms, property (written in another way): 4 → "4"']),
    ("a line break made a space", LAKE,
     lambda d: d["visit"].update(weather=d["visit"]["weather"].replace(", ", ",\n")),
     ['weather, visit (spaces or line breaks only): "overcast, 41 F, light rain the'
      ' day before" → "overcast, 41 F, light rain the day before"']),
    ("a text of several lines", PIT,
     lambda d: d["cesspool"].update(note="one\ntwo\x07 three"),
     ['note, cesspool: "Read from the rim with a pole; nobody stood near the edge."'
      ' → "one two three"']),
    ("an unknown key", LAKE,
     lambda d: d["visit"].update(dog_in_yard="yes"),
     ['dog in yard, visit: added "yes"']),
    ("an unknown section", LAKE,
     lambda d: d.update(my_section={"a_b": 1, "c": "d"}),
     ['added my section: a b 1, c "d"']),
    ("a small section added", NEW,
     lambda d: d.update(consent={"given_by": "the owner", "run_water": "yes"}),
     ['added consent: given by "the owner", running water yes']),
    ("a small section taken out", NEW,
     lambda d: d.pop("household"),
     ["took out household: people 4, food-waste disposer yes, pumped before the "
      "visit 730 days"]),
    ("a large section added", HOLLOW,
     lambda d: d.update(pump_chamber=DATA[LAKE]["pump_chamber"]),
     ["added pump chamber: inside shape box, inside length 5 ft, inside width 4 ft,"
      " inside height 62 in, measured by plan, pump off 12 in, pump on 20 in, alarm"
      " on 24 in, inlet 44 in, drawdown (3 values), pump runs, alarm silent, and 4 "
      "more"]),
    ("a large section taken out", LAKE,
     lambda d: d.pop("load_test"),
     ["took out load test: target 150 gal, water (1 entry), levels (6 entries), "
      "levels read to 1/8 in, ended 2:45 pm, why it was stopped level too high, "
      "limits (3 values), and 1 more"]),
    ("a small group within a section", LAKE,
     lambda d: d["pump_chamber"].pop("drawdown"),
     ["took out drawdown, pump chamber: from 52 in, to 51 in, time 20 min"]),
    ("a value of a group within a section", LAKE,
     lambda d: d["load_test"]["limits"].update(rise="1 in"),
     ["allowed rise, limits, load test: 2 in → 1 in"]),
    ("one of two groups of one title", NEW,
     lambda d: d["two_day_test"]["second_day"].update(level="5 in"),
     ["level, second day, two-day test: 6 in → 5 in"]),
    ("a section of the wrong kind", NEW,
     lambda d: d.update(household="none"),
     ["household: people 4, food-waste disposer yes, pumped before the visit 730 "
      'days → "none"']),
    ("a reading mended", HOLLOW,
     lambda d: d["load_test"]["levels"][1].update(level="1/2 in above"),
     ["level, reading at 10:10 am, load test: 3/8 in above → 1/2 in above"]),
    ("a reading put in between", HOLLOW,
     lambda d: d["load_test"]["levels"].insert(2, {"at": "10:15 am",
         "level": "7/16 in above"}),
     ["added reading, load test: at 10:15 am (7/16 in above)"]),
    ("a reading taken out", HOLLOW,
     lambda d: d["load_test"]["levels"].pop(0),
     ["took out reading, load test: at 10:02 am (at invert)"]),
    ("the time of a reading", HOLLOW,
     lambda d: d["load_test"]["levels"][1].update(at="10:11 am"),
     ["time, reading, load test: 10:10 am → 10:11 am"]),
    ("readings in another order", HOLLOW,
     lambda d: move(d["load_test"]["levels"], 4, 0),
     ["order of levels in load test changed"]),
    ("a note at a reading", HOLLOW,
     lambda d: d["load_test"]["levels"][1].update(note="wind"),
     ['note, reading at 10:10 am, load test: added "wind"']),
    ("a bucket check", HOLLOW,
     lambda d: d["load_test"]["water"][0]["bucket"].append("5 gal in 74 s"),
     ["bucket checks, water from 10:05 am, load test: 5 gal in 75 s, 5 gal in 73 s,"
      " 5 gal in 76 s → 5 gal in 75 s, 5 gal in 73 s, 5 gal in 76 s, 5 gal in 74 s"]),
    ("the end of a stretch of water", LAKE,
     lambda d: d["load_test"]["water"][0].update(to="1:45 pm"),
     ["to, water from 1:10 pm, load test: 1:41 pm → 1:45 pm"]),
    ("other water", NEW,
     lambda d: d["load_test"]["other_water"][0].update(gallons="14 gal"),
     ["gallons, other water from 10:12 am, load test: 12 gal → 14 gal"]),
    ("a further part", NEW,
     lambda d: d["load_test"]["further"][1].update(after="20 in below"),
     ['after, further part "pump chamber", load test: 22 in below → 20 in below']),
    ("a reading of a pit", PIT,
     lambda d: d["cesspool"]["levels"][1].update(down="54 in"),
     ["down, reading at 20 min, cesspool: 54 1/2 in → 54 in"]),
    ("a photograph added", LAKE,
     lambda d: d["photos"].append({"file": "lid.jpg", "shows": "both covers off"}),
     ["added photograph: lid.jpg (both covers off)"]),
    ("a photograph taken out", LAKE,
     lambda d: d["photos"].pop(0),
     ["took out photograph: broken-riser-cover.jpg (Illustration. Riser at grade, "
      "its cover broken through.)"]),
    ("what a photograph shows", LAKE,
     lambda d: d["photos"][0].update(shows="the riser"),
     ['shows, photograph broken-riser-cover.jpg: "Illustration. Riser at grade, its'
      ' cover broken through." → "the riser"']),
    ("a photograph of another name", LAKE,
     lambda d: d["photos"][0].update(file="riser.jpg"),
     ["photograph: broken-riser-cover.jpg → riser.jpg"]),
    ("photographs in another order", LAKE,
     lambda d: move(d["photos"], 0, 3),
     ["order of photographs changed"]),
    ("a finding added", HOLLOW,
     lambda d: d["findings"].append({"part": "tank", "weight": "watch",
         "title": "Roots at the inlet"}),
     ['added finding: Roots at the inlet (part "tank", weight watch)']),
    ("a finding taken out", LAKE,
     lambda d: d["findings"].pop(),
     ['took out finding: The pump runs and the chamber hardly empties (part "pump '
      'chamber", weight failed, seen "The pump ran for 20 minutes by hand; the '
      'liquid fell 1 in…", means "The mound takes almost nothing, and what was '
      'lifted runs…", and 5 more)']),
    ("the weight of a finding", LAKE,
     lambda d: d["findings"][0].update(weight="repair"),
     ['weight, finding "The pump runs and the chamber hardly '
      'empties": failed → repair']),
    ("a finding of another title", HOLLOW,
     lambda d: d["findings"][0].update(title="No water sample taken"),
     ['title, finding: "Well water not tested at this visit" → '
      '"No water sample taken"']),
    ("an override added", HOLLOW,
     lambda d: d.update(overrides=[{"finding": "tank-cover", "weight": "watch",
         "because": "it was strapped down"}]),
     ["added override: tank-cover (watch because it was strapped down)"]),
    ("a report added", LAKE,
     lambda d: d["reports"].append({"number": 2, "date": "2026-04-20",
         "reason": "a photograph added"}),
     ['added report: number 2 (date 2026-04-20, reason "a photograph added")']),
    ("reports in another order", AGAIN,
     lambda d: d["reports"].reverse(),
     ["order of reports changed"]),
    ("the reason of a report", AGAIN,
     lambda d: d["reports"][1].update(reason="second visit"),
     ['reason, report number 2: "second visit after the outlet pipe was replaced" →'
      ' "second visit"']),
    ("a tank renamed", NEW,
     lambda d: d["tanks"][1].update(name="second tank"),
     ["name, tank: oval → second tank"]),
    ("a tank added", HOLLOW,
     lambda d: d["tanks"].insert(0, {"name": "old tank", "material": "steel"}),
     ["added tank: old tank (material steel)"]),
    ("a nested compartment", NEW,
     lambda d: d["tanks"][0]["compartments"][1].update(sludge="4 in"),
     ['sludge, compartment "second", tank "tank": 3 in → 4 in']),
    ("a nested compartment taken out", NEW,
     lambda d: d["tanks"][0]["compartments"].pop(),
     ['took out compartment, tank "tank": second (inside length 2 ft 7 in, sludge 3'
      " in, scum 0 in)"]),
    ("a sighting added", HOLLOW,
     lambda d: d["pipe_runs"][0]["log"].insert(3, {"at": "15 ft", "see": "roots",
         "water": "1/2 in"}),
     ['added log entry, pipe run "outlet pipe": at 15 ft (roots, 1/2 in of water)']),
    ("a sighting mended", HOLLOW,
     lambda d: d["pipe_runs"][0]["log"][3].update(see="roots"),
     ['seen, log entry at 20 ft, pipe run "outlet pipe": joint → roots']),
    ("the place of a sighting", HOLLOW,
     lambda d: d["pipe_runs"][0]["log"][3].update(at="21 ft"),
     ['at, log entry, pipe run "outlet pipe": 20 ft → 21 ft']),
    ("the end of a sighting", HOLLOW,
     lambda d: d["pipe_runs"][0]["log"][1].pop("to"),
     ['to, log entry at 1 ft 6 in, pipe run "outlet pipe": took out 6 ft 6 in']),
    ("a distance mended", LAKE,
     lambda d: d["distances"][0].update(distance="98 ft"),
     ["distance, absorption area to private well: 96 ft → 98 ft"]),
    ("a distance added", LAKE,
     lambda d: d["distances"].append({"from": "tank", "to": "property line",
         "distance": "30 ft", "by": "tape"}),
     ["added distance: tank to property line (30 ft by tape)"]),
    ("a distance to something else", LAKE,
     lambda d: d["distances"][4].update(to="wetland"),
     ["to, distance absorption area to surface water: surface water → wetland"]),
    ("a feature added", HOLLOW,
     lambda d: d["features"].append({"name": "creek", "kind": "surface water"}),
     ["added feature: creek (surface water)"]),
    ("a feature of another kind", HOLLOW,
     lambda d: d["features"][0].update(kind="public well"),
     ['kind, feature "well": private well → public well']),
    ("ties of a place", HOLLOW,
     lambda d: d["places"][0].update(ties=["A 17 ft 2 in", "B 53 ft 4 in"]),
     ["ties, place L1: A 17 ft, B 53 ft 4 in → A 17 ft 2 in, B 53 ft 4 in"]),
    ("a fixed point", HOLLOW,
     lambda d: d["datum"]["points"][1].update(what="corner"),
     ['what it is, fixed point B, datum: "northeast corner of the garage" → "corner"']),
    ("a depth", HOLLOW,
     lambda d: d["depths"][0].update(probed="12 in"),
     ['probed, depth to "tank": 11 in → 12 in']),
    ("an outlet of the box", NEW,
     lambda d: d["distribution_box"]["outlets"][1].update(down="10 in"),
     ['down, outlet to "south trench", distribution box: 10 3/8 in → 10 in']),
    ("a record", LAKE,
     lambda d: d["records"][1].update(found="yes"),
     ['found, record "service contract": no → yes']),
    ("a sign", LAKE,
     lambda d: d["walkover"]["signs"].append({"sign": "trees", "where": "a willow"}),
     ["added sign, walk-over: trees (a willow)"]),
    ("a part not seen", LAKE,
     lambda d: d["not_seen"].pop(0),
     ["took out part not seen: Pipes inside the mound (they have no access at "
      "grade, and opening it needs a permit)"]),
    ("one of two of a kind", AGAIN,
     lambda d: d["records"].append({"kind": "other", "says": "a sketch"}),
     ["added record: other (a sketch)"]),
    ("a note of one of two of a kind", PIT,
     lambda d: (d["records"].append({"kind": "permit", "found": "no"}),
         d["records"][0].update(note="none")),
     ['note, record "permit" (no. 1): "the township keeps none before 1966" → "none"',
      "added record: permit (found no)"]),
    ("an entry without a name", LAKE,
     lambda d: d["tanks"].append({"material": "steel", "sludge": "2 in"}),
     ["added tank: material steel, sludge 2 in"]),
    ("a name taken out", LAKE,
     lambda d: d["tanks"][0].pop("name"),
     ["name, tank: took out tank"]),
    ("a list where one value stood", LAKE,
     lambda d: d["visit"].update(weather=["dry", "cold"]),
     ['weather, visit: "overcast, 41 F, light rain the day before" → dry, cold']),
    ("a key in an unknown list", LAKE,
     lambda d: d.update(my_list=[{"a": 1}, "b"]),
     ["added entry of my list: a 1",
      "added entry of my list: b"]),
    ("photographs without keys", LAKE,
     lambda d: d.update(photos=["lid.jpg"]),
     ["took out photograph: broken-riser-cover.jpg (Illustration. Riser at grade, "
      "its cover broken through.)",
      "took out photograph: scum-and-sludge.jpg (Illustration. Measuring stick in a"
      " thick crust of scum.)",
      "took out photograph: level-after-test.jpg (Illustration. Liquid well above "
      "the invert of the outlet tee.)",
      "took out photograph: pump-chamber-high.jpg (Illustration. Pump chamber "
      "nearly full, its float under water.)",
      "took out photograph: mound-toe.jpg (Illustration. Wet strip along the "
      "downhill toe of the mound.)",
      "added photograph: lid.jpg"]),
    ("a long note written again", LAKE,
     lambda d: d["pump_chamber"].update(note=NOTE),
     ['note, pump chamber: "The alarm float hung under water; no horn and no lamp."'
      ' → "The cover was fenced. The cover was fenced. The cover was fenced. The '
      'cover was fenced. The cover was fenced. The cover…"']),
    ("a long note whose end changed", AGAIN,
     lambda d: d["walkover"].update(note=d["walkover"]["note"] + ". " + NOTE),
     ['note, walk-over: "the backfill over the new pipe is 1 in low, as fresh '
      'backfill is" → "the backfill over the new pipe is 1 in low, as fresh '
      'backfill is. The cover was fenced. The cover was fenced. The cover…"']),
    ("a photograph renamed and moved", LAKE,
     lambda d: (d["photos"][0].update(file="riser.jpg"), move(d["photos"], 0, 4)),
     ["took out photograph: broken-riser-cover.jpg (Illustration. Riser at grade, its"
      " cover broken through.)",
      "added photograph: riser.jpg (Illustration. Riser at grade, its cover broken"
      " through.)"]),
    ("a tank renamed and moved", NEW,
     lambda d: (d["tanks"][1].update(name="egg"), move(d["tanks"], 1, 0)),
     ["added tank: egg (inside shape lying oval, inside length 8 ft, inside width 5 ft,"
      " inside height 5 ft, liquid depth 50 in)",
      "took out tank: oval (inside shape lying oval, inside length 8 ft, inside width 5"
      " ft, inside height 5 ft, liquid depth 50 in)"]),
    ("the times of all readings", PIT,
     lambda d: [one.update(at=f"1{one['at']}") for one in d["cesspool"]["levels"]],
     ["at, reading, cesspool: 10:39 am → 110:39 am",
      "at, reading, cesspool: 20 min → 120 min",
      "at, reading, cesspool: 60 min → 160 min"]),
    ("a large section with a list of names", LAKE,
     lambda d: d.update(datum=DATA[HOLLOW]["datum"]),
     ["added datum: fixed points (4 entries), bearing 95 deg, house (A, B, C, D)"]),
    ("a long name", HOLLOW,
     lambda d: d["findings"][0].update(title=NOTE, weight="repair"),
     [f'weight, finding "{CUT}": watch → repair',
      f'title, finding: "Well water not tested at this visit" → "{CUT}"']),
    ("two edits at once", LAKE,
     lambda d: (d["reports"][0].update(by="N. Example"),
         d["visit"].update(end="4:00 pm")),
     ["left, visit: 3:45 pm → 4:00 pm",
      'by, report number 1: "P. Ashgrove (invented)" → "N. Example"']),
    ("nothing", LAKE,
     lambda d: d.update(dict(reversed(d.items()))),
     []),
]
# fmt: on


@pytest.mark.parametrize(
    ("job", "edit", "said"),
    [pytest.param(job, edit, said, id=name) for name, job, edit, said in EDITS],
)
def test_an_edit_is_told(job: str, edit: Edit, said: list[str]) -> None:
    assert told(job, edit) == said


def test_entries_on_one_line_are_the_same_as_in_full(tmp_path: Path) -> None:
    text = Path(DEMONSTRATIONS[1]).read_text(encoding="utf-8")
    short, long = "- 20 ft: joint, 3/8 in of water", "- {at: 20 ft, see: joint, water: "
    assert short in text
    path = tmp_path / "job.yaml"
    path.write_text(text.replace(short, long + "3/8 in}"), encoding="utf-8")
    assert changes(DATA[HOLLOW], data_of(path)) == ()
    path.write_text(text.replace(short, long + "1/2 in}"), encoding="utf-8")
    assert [str(one) for one in changes(DATA[HOLLOW], data_of(path))] == [
        'water, log entry at 20 ft, pipe run "outlet pipe": 3/8 in → 1/2 in'
    ]


def test_a_change_gives_its_parts_as_typed() -> None:
    before = {"visit": {"weather": "dry"}, "photos": [{"file": "a.jpg"}]}
    after = {"visit": {"weather": "wet", "rain": "light"}}
    assert changes(before, after) == (
        Change("visit.weather", "weather, visit", "dry", "wet", (True, True)),
        Change("visit.rain", "rain, visit", "", "light"),
        Change("photos[0]", "photograph", "a.jpg", "", whole=True),
    )


def test_sections_are_told_in_the_order_of_the_schema() -> None:
    after = {"reports": [], "zebra": 1, "visit": {}, "state": "draft", "ant": 2}
    paths = [one.path for one in changes({}, after)]
    assert paths == ["state", "visit", "reports", "zebra", "ant"]


def test_what_was_taken_out_is_told_where_it_stood() -> None:
    before = {"visit": {"date": "a", "start": "b", "end": "c"}}
    after = {"visit": {"end": "d", "date": "e"}}
    paths = [one.path for one in changes(before, after)]
    assert paths == ["visit.end", "visit.date", "visit.start"]


def test_a_difference_late_in_a_long_text_is_seen() -> None:
    old, new = ({"client": {"answer": f"{NOTE}It is {one}."}} for one in ("so", "not"))
    (change,) = changes(old, new)
    assert str(change) == (
        'answer, client: "…fenced. The cover was fenced. It is so." → '
        '"…fenced. The cover was fenced. It is not."'
    )
    assert change.after == f"{NOTE}It is not."


def test_a_long_text_without_a_space_is_cut_too() -> None:
    (change,) = changes(
        {"demonstration": "a" * 999}, {"demonstration": "a" * 998 + "b"}
    )
    assert len(str(change)) < 2 * LONGEST_TEXT
    assert str(change).endswith('ab"')


def test_a_name_given_is_told_of_the_number_in_the_list() -> None:
    tank = {"material": "steel", "sludge": "2 in", "scum": "1 in"}
    found = changes({"tanks": [tank]}, {"tanks": [{"name": "main", **tank}]})
    assert [str(one) for one in found] == ["name, tank no. 1: added main"]


def test_a_reading_at_another_level_of_the_same_words_is_another_reading() -> None:
    old = [{"at": "9:14 am", "level": "at invert"}, {"at": "9:20 am", "level": "1 in"}]
    new = [{"at": "9:30 am", "level": "2 in"}, {"at": "9:50 am", "level": "at invert"}]
    found = changes({"load_test": {"levels": old}}, {"load_test": {"levels": new}})
    assert [str(one) for one in found] == [
        "took out reading, load test: at 9:14 am (at invert)",
        "took out reading, load test: at 9:20 am (1 in)",
        "added reading, load test: at 9:30 am (2 in)",
        "added reading, load test: at 9:50 am (at invert)",
    ]


def test_equal_entries_keep_their_places() -> None:
    one, other = {"a": 1}, {"b": 2}
    found = changes({"my_list": [one, other, one]}, {"my_list": [other, one]})
    assert [str(each) for each in found] == ["took out entry of my list: a 1"]


def test_every_list_of_groups_has_a_name_for_its_entries() -> None:
    lists = {key.within: key for key in all_keys() if key.within.endswith("[]")}
    groups = {path: key for path, key in lists.items() if key.holds_keys}
    assert ENTRIES.keys() == groups.keys()
    for path, entry in ENTRIES.items():
        assert entry.keys, path
        assert set(entry.keys) <= groups[path].item["properties"].keys()


def test_every_key_has_a_title_of_its_own_in_its_group() -> None:
    named = [(key.path.rpartition(".")[0], title(key.path)) for key in all_keys()]
    assert len(named) == len(set(named))


ODD = st.recursive(
    st.none()
    | st.integers(0, 3)
    | st.sampled_from(["", " ", "a\nb", "a b", "1", "\x1b[31m", "x" * 500, "tank"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["name", "at", "kind", "file", "tanks", "odd_key", "from"]),
            inner,
            max_size=3,
        )
    ),
    max_leaves=8,
)
SECTIONS = st.sampled_from([*schema("inspection")["properties"], "my_section"])


def spots_of(data: Any) -> list[tuple[Any, Any]]:
    """List every key and every entry with what holds it."""
    held = data if isinstance(data, dict) else dict(enumerate(data))
    found = [(data, key) for key in held]
    for one in held.values():
        if isinstance(one, dict | list):
            found += spots_of(one)
    return found


def edit_at_random(draw: st.DataObject, data: Data) -> None:
    """Change, take out, add, copy or move something anywhere in a job."""
    holder, key = draw.draw(st.sampled_from(spots_of(data)), "where")
    deed = draw.draw(st.sampled_from(["set", "drop", "add", "copy", "turn"]), "deed")
    if deed == "drop":
        del holder[key]
    elif deed == "set" or (deed == "turn" and isinstance(holder, dict)):
        holder[key] = draw.draw(ODD, "value")
    elif isinstance(holder, dict):
        holder[draw.draw(st.sampled_from(["note", "odd_key", "name"]))] = draw.draw(ODD)
    elif deed == "turn":
        holder.reverse()
    else:
        one = holder[key] if deed == "copy" else draw.draw(ODD)
        holder.insert(draw.draw(st.integers(0, len(holder))), copy.deepcopy(one))


def stands(data: Any, path: str) -> bool:
    """Say whether a path leads to something."""
    for step in path.replace("[", ".[").split("."):
        key = int(step[1:-1]) if step.startswith("[") else step
        try:
            data = data[key]
        except (KeyError, IndexError, TypeError):
            return False
    return True


def hold_to_the_rules(before: Data, after: Data) -> None:
    found = changes(before, after)
    assert bool(found) == (before != after)
    assert len(set(found)) == len(found)
    for one in found:
        assert stands(after if one.after or not one.before else before, one.path)
        said = str(one)
        assert said.isprintable()
        assert one.what
        reordered = not one.before and not one.after
        assert reordered == said.startswith("order of ")
        assert len(said) < 1000


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(sorted(DATA)), st.integers(1, 4), st.data())
def test_any_edit_of_a_job_is_told(job: str, edits: int, draw: st.DataObject) -> None:
    after = copy.deepcopy(DATA[job])
    for _ in range(edits):
        edit_at_random(draw, after)
    hold_to_the_rules(DATA[job], after)
    hold_to_the_rules(after, DATA[job])


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(SECTIONS, ODD), st.dictionaries(SECTIONS, ODD))
def test_odd_data_never_raises(before: Data, after: Data) -> None:
    hold_to_the_rules(before, after)
    hold_to_the_rules(before, copy.deepcopy(before))


@pytest.mark.parametrize("old", sorted(DATA))
def test_any_job_against_any_other(old: str) -> None:
    for new in sorted(DATA):
        hold_to_the_rules(DATA[old], DATA[new])
