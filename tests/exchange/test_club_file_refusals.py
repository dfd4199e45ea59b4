"""Each mistake in a club file is told by its place, the value and what to do."""

import json
from datetime import date
from typing import Any

import pytest

from squadwright.demo import demo_club
from squadwright.errors import InvalidInput
from squadwright.exchange.club_file import examine_club, read_club, write_club

MONDAY = date(2026, 3, 2)
MASS_ADVICE = 'Write a number and a unit, for example "32.5 kg" or "184 lb"'

# Place to change, value to put there, and the message to be read.
MISTAKES: list[tuple[str, Any, str]] = [
    ("athletes.3.tests.0.load", "x kg",
     f"athletes[3].tests[0].load: 'x kg' is not a mass. {MASS_ADVICE}"),
    ("athletes.3.tests.0.load", 70,
     f"athletes[3].tests[0].load: 70 is not a mass. {MASS_ADVICE}"),
    ("athletes.3.tests.0.load", "0 kg",
     "athletes[3].tests[0].load: 0 kg is not plausible for a strict press test: the limits are "
     "1 and 600 kg. Check the number and the unit"),
    ("athletes.3.tests.0.repetitions", "5",
     "athletes[3].tests[0].repetitions: '5' is not a whole number without quotes. "
     "Write a whole number without quotes"),
    ("athletes.3.tests.0.repetitions", True,
     "athletes[3].tests[0].repetitions: true is not a whole number without quotes. "
     "Write a whole number without quotes"),
    ("athletes.3.tests.0.repetitions", 0,
     "athletes[3].tests[0].repetitions: 0 is below the limit of 1. Write 1 or more"),
    ("athletes.3.tests.0.repetitions", 60,
     "athletes[3].tests[0].repetitions: 60 repetitions are no strength test; the limit is 50. "
     "Write the good repetitions of one set"),
    ("athletes.3.tests.0.taken_on", "2026-13-01",
     "athletes[3].tests[0].taken_on: '2026-13-01' is not a date (month value is outside expected "
     'range of 1-12). Write year, month and day, for example "2026-03-02"'),
    ("athletes.0.name", 5, "athletes[0].name: 5 is not a text in quotes. Write a text in quotes"),
    ("athletes.0.sex", "woman",
     "athletes[0].sex: 'woman' is not one of the words allowed. Write one of: female, male"),
    ("athletes.0.level", "advancd",
     "athletes[0].level: 'advancd' is not one of the words allowed. Did you mean 'advanced'? "
     "Write one of: novice, intermediate, advanced"),
    ("athletes.0.stature_m", 160,
     "athletes[0].stature_m: 160 is not below the limit of 2.6 m. "
     "Write 2.6 or less, but not the limit itself"),
    ("athletes.0.birth_date", "2040-01-01",
     "athletes[0].birth_date: 2040-01-01 lies in the future. Check the year"),
    ("athletes.0.birth_date", "1930-01-01",
     "athletes[0].birth_date: 1930-01-01 gives an age of 96 years; the limits are 5 and 90 years. "
     "Check the year"),
    ("athletes.0.tests.0.taken_on", "1999-01-01",
     "athletes[0].tests[0].taken_on: 1999-01-01 is before the birth date 2001-12-21. "
     "Check both dates"),
    ("athletes.0.body_mass.0.reading", "549 kg",
     "athletes[0].body_mass[0].reading: 549 kg is not plausible for a body mass: the limits are "
     "20 and 300 kg. Check the number and the unit"),
    ("athletes.0.body_mass.0.reading", "20 lb",
     "athletes[0].body_mass[0].reading: 20 lb (9.1 kg) is not plausible for a body mass: the "
     "limits are 20 and 300 kg. Check the number and the unit"),
    ("sessions.0.settings.stop_after_faults", 0,
     "sessions[0].settings.stop_after_faults: 0 is below the limit of 1. Write 1 or more"),
    ("sessions.0.settings.stop_after_faults", 10,
     "sessions[0].settings.stop_after_faults: 10 is above the limit of 9. Write 9 or less"),
    ("athletes.0.naem", "x",
     "athletes[0].naem: 'naem' is not a field of an athlete. Did you mean 'name'? "
     "Else take it out"),
    ("athletes.0.squad", "Matt",
     "athletes[0].squad: 'Matt' is not a squad of the club. Did you mean 'Mat'?"),
    ("athletes.3.restrictions.0.until", "2026-01-01",
     "athletes[3].restrictions[0].until: restriction A04-shoulder ends on 2026-01-01, not after "
     "its start 2026-02-18. Give a later end date, or leave it out if it holds until lifted"),
    ("athletes.13.clearances.0.restriction", "A14-knee",
     "athletes[13].clearances[0].restriction: 'A14-knee' is not a restriction of this athlete. "
     "Write one of: A14-blood-pressure, A14-breathing"),
    ("athletes.13.clearances.0.given_on", "2025-01-01",
     "athletes[13].clearances[0].given_on: 2025-01-01 is before restriction 'A14-blood-pressure' "
     "began on 2025-11-02. Check both dates"),
    ("athletes.1.id", "A01",
     "athletes[1].id: 'A01' is used twice. "
     "Give each its own id; two of one name keep separate ids"),
    ("kit.bars.0.mass", "200 kg",
     "kit.bars[0].mass: 200 kg is not plausible for a bar: the limits are 2 and 60 kg. "
     "Check the number and the unit"),
    ("kit.plates.0.plate", "0.05 kg",
     "kit.plates[0].plate: 0.05 kg is not plausible for a plate: the limits are 0.1 and 60 kg. "
     "Check the number and the unit"),
    ("kit.balls.0.mass", "40 kg",
     "kit.balls[0].mass: 40 kg is not plausible for a ball: the limits are 0.5 and 30 kg. "
     "Check the number and the unit"),
    ("kit.balls.0.id", "bar-20-1",
     "kit.balls[0].id: 'bar-20-1' is used already at kit.bars[0].id. "
     "Give each piece of kit its own id"),
    ("kit.boxes.0.heights_m.1", 50,
     "kit.boxes[0].heights_m[1]: 50 m is not plausible for a box: the limits are 0.05 and 1.6 m. "
     "Write it in metres, for example 0.45 for 45 cm"),
    ("rooms.0.outline", [[0, 0], [1, 1]],
     "rooms[0].outline: room weights-room has 2 corners. Give at least 3 corners in metres, for "
     "example [[0,0],[11.5,0],[11.5,8],[0,8]]"),
    ("rooms.0.outline.0", [1, 2, 3],
     "rooms[0].outline[0]: the list holds 3 values instead of 2. Correct it"),
    ("week.0.ends_at", "17:00",
     "week[0].ends_at: 17:00 is not after the start 18:00. Give a later end on the same day"),
    ("routines.0.blocks.0.steps.0.exercise", "muscle-cleen",
     "routines[0].blocks[0].steps[0].exercise: 'muscle-cleen' is not an exercise of the library. "
     "Did you mean 'muscle-clean'?"),
    ("routines.0.blocks.0.steps", [],
     "routines[0].blocks[0].steps: block Ropewalk has no exercise. Add at least one step"),
    ("sessions.0.room", "mat hall",
     "sessions[0].room: 'mat hall' is not a room. Did you mean 'mat-hall'?"),
    ("sessions.0.routine", "ropewalks",
     "sessions[0].routine: 'ropewalks' is not a routine of the club. Did you mean 'ropewalk'?"),
    ("sessions.0.routine_version", 7,
     "sessions[0].routine_version: routine 'ropewalk' has no version 7. "
     "Write one that is under routines: 1"),
    ("sessions.0.staff.0", "Nobody",
     "sessions[0].staff[0]: 'Nobody' is not one of the staff. Write one of: Head coach, Ines "
     "Talvikoja, Moses Abernethy-Kolo, Rutger Vantongerle"),
    ("sessions.0.athletes.2", "A77",
     "sessions[0].athletes: 'A77' is not an athlete of the club. "
     "Name an athlete by the id under athletes"),
    ("sessions.0.check_ins.0.presence", "present",
     "sessions[0].check_ins[0].late_minutes: 12 minutes late, but presence is present. "
     'Write presence "late", or take the minutes out'),
    ("sessions.0.check_ins.0.late_minutes", 60,
     "sessions[0].check_ins[0].late_minutes: 60 minutes late for a session of 60 minutes. "
     'Write fewer minutes, or presence "absent"'),
    ("sessions.0.check_ins.1.athlete", "A05",
     "sessions[0].check_ins[1].athlete: 'A05' is used twice. Give each its own"),
    ("sessions.0.overrides", [{"athlete": "A01", "reason": "x", "bar": "bar-99"}],
     "sessions[0].overrides[0].bar: 'bar-99' is not a bar in the store. "
     "Did you mean 'bar-10'?"),
    ("sessions.0.overrides",
     [{"athlete": "A01", "reason": "x",
       "swaps": [{"step_label": "9", "exercise": "strict-press"}]}],
     "sessions[0].overrides[0].swaps[0].step_label: '9' is not the label of a step of the "
     "routine. Write one of: 1, 2, 3, 4, 5, 6"),
    ("sessions.0.settings.banned_pairs", [["A01", "A01"]],
     "sessions[0].settings.banned_pairs[0]: pairs 'A01', one athlete twice. Name two athletes"),
    ("sessions.0.settings.target_probability", 90,
     "sessions[0].settings.target_probability: 90 is not below the limit of 1. "
     "Write 1 or less, but not the limit itself"),
    ("format_version", 2, "format_version: 2 is not 1. Write 1"),
    ("note", "x" * 1001,
     f"note: '{'x' * 59}... has 1001 characters; the limit is at most 1000. Shorten it"),
]  # fmt: skip


def demo() -> Any:
    return json.loads(write_club(demo_club(MONDAY)))


def changed(place: str, value: Any) -> str:
    document = demo()
    holder = document
    *path, last = (int(step) if step.isdigit() else step for step in place.split("."))
    for step in path:
        holder = holder[step]
    holder[last] = value
    return json.dumps(document)


@pytest.mark.parametrize(("place", "value", "message"), MISTAKES)
def test_a_mistake_is_told_by_place_value_and_remedy(place: str, value: Any, message: str) -> None:
    with pytest.raises(InvalidInput) as caught:
        read_club(changed(place, value), today=MONDAY)
    assert str(caught.value) == message


def test_a_field_that_is_missing_says_what_belongs_there() -> None:
    document = demo()
    del document["athletes"][0]["birth_date"]
    with pytest.raises(InvalidInput) as caught:
        read_club(json.dumps(document), today=MONDAY)
    assert str(caught.value) == (
        'athletes[0].birth_date: is missing. Add it: a date in quotes, for example "2026-03-02"'
    )


def test_of_several_mistakes_the_first_is_told_and_the_others_are_counted() -> None:
    text = write_club(demo_club(MONDAY)).replace('"best set of 5"', '""')
    with pytest.raises(InvalidInput) as caught:
        read_club(text, today=MONDAY, file="quay.json")
    assert str(caught.value).startswith("athletes[0].tests[0].method: '' has 0 characters")
    assert str(caught.value).endswith("(and 12 more; run `squadwright check quay.json` to see all)")
    assert len(examine_club(text, today=MONDAY)[1]) == 13


def test_a_required_pair_may_not_be_banned_too() -> None:
    document = demo()
    document["sessions"][0]["settings"] |= {
        "banned_pairs": [["A01", "A05"]],
        "required_pairs": [["A05", "A01"]],
    }
    with pytest.raises(InvalidInput, match=r"required_pairs\[0\]: 'A05' and 'A01' are also a ban"):
        read_club(json.dumps(document), today=MONDAY)


def test_an_age_is_judged_on_the_day_given() -> None:
    text = changed("athletes.0.birth_date", "2021-06-01")

    def ages(today: date) -> list[str]:
        complaints = examine_club(text, today=today)[1]
        return [c.problem for c in complaints if c.place == "athletes[0].birth_date"]

    assert ages(date(2026, 5, 31)) == [
        "2021-06-01 gives an age of 4 years; the limits are 5 and 90 years"
    ]
    assert ages(date(2026, 6, 1)) == []


def test_an_empty_text_is_taken_where_leaving_it_out_means_the_same() -> None:
    club = read_club(changed("athletes.0.squad", ""), today=MONDAY)
    assert club.athletes[0].squad == ""
    assert '"squad": ""' not in write_club(club)
    with pytest.raises(InvalidInput, match=r"^athletes\[0\].squad: ' ' is blank"):
        read_club(changed("athletes.0.squad", " "), today=MONDAY)


@pytest.mark.parametrize("limit", ["20 kg", "300 kg", "44.0925 lb", "661.38 lb"])
def test_a_body_mass_at_the_limit_is_taken(limit: str) -> None:
    club = read_club(changed("athletes.0.body_mass.0.reading", limit), today=MONDAY)
    assert str(club.athletes[0].body_mass[0].reading) == limit


@pytest.mark.parametrize("typed", ["32.50 kg", "0032.5 kg", " 32.5  kg ", "32.5kg", "184 lb"])
def test_a_mass_keeps_the_digits_and_the_unit_it_was_typed_with(typed: str) -> None:
    club = read_club(changed("athletes.0.tests.0.load", typed), today=MONDAY)
    written = write_club(club)
    assert read_club(written, today=MONDAY) == club
    amount, unit = typed.strip()[:-2].strip().lstrip("0"), typed.strip()[-2:]
    assert f'"load": "{amount} {unit}"' in written


def test_two_athletes_of_one_name_are_never_merged() -> None:
    club = read_club(changed("athletes.1.name", "Ottoline Baptiste-Ferro"), today=MONDAY)
    assert [a.id for a in club.athletes if a.name == "Ottoline Baptiste-Ferro"] == ["A01", "A02"]
    assert club.athletes[0].tests != club.athletes[1].tests
    assert len(set(club.shown_names().values())) == 14
