"""The form of a session: fields into an entry, an entry into fields."""

from dataclasses import fields, replace
from datetime import date
from typing import Any

from squadwright.model.calendar import BodyRegion, Work
from squadwright.model.club import Club, Weekday
from squadwright.model.session import HeatReading, MinorRule, OddSquad, Settings
from squadwright.services.sessions import Entry, is_expected
from squadwright.services.week import SlotEntry
from squadwright.web.forms import Form, FormView

EVERYBODY, SOME_SQUADS, SOME_NAMES = "everybody", "squads", "names"
MOST_PAIR_ROWS = 12
SPARE_PAIR_ROWS = 2
NEVER, ALWAYS = "never", "always"
Pairs = tuple[tuple[str, str], ...]

# Field, label, least, most, unit: whole numbers of the settings as they stand.
WHOLE_SETTINGS = (
    ("least_warm_up_minutes", "Least warm-up", 0, 60, "minutes"),
    ("late_warm_up_minutes", "Warm-up of latecomers", 0, 60, "minutes"),
    ("athletes_per_coach", "Athletes for each coach, at most", 1, 100, "athletes"),
    ("reserve_repetitions", "Repetitions kept in reserve", 0, 10, "repetitions"),
    ("hinge_reserve_repetitions", "Kept in reserve in hinges", 0, 10, "repetitions"),
    ("taper_days", "Taper before a main event", 0, 60, "days"),
    ("technique_bar_below_age", "Technique bar below the age of", 0, 99, "years"),
    ("guest_rounds", "Rounds of a guest", 1, 20, "rounds"),
    ("stop_after_faults", "Ask to stop after the same fault so often in a round", 1, 9, "taps"),
)
# Field, label, least, most: shares, typed in per cent.
PERCENT_SETTINGS = (
    ("target_probability", "Chance that each athlete finishes the load", 50, 99),
    ("plain_rule_fraction", "Share of the weakest lift in the plain rule", 10, 100),
    ("taper_rounds_fraction", "Share of rounds in the taper", 0, 100),
    ("youth_contacts_fraction", "Share of contacts below the technique age", 0, 100),
)
PARTS = (
    ("arrive_minutes", "Arriving"),
    ("spare_minutes", "Spare"),
    ("close_minutes", "Cool-down and scores"),
    ("pack_minutes", "Packing away"),
)
MOST_PART_MINUTES = 60
HEAT_C = (-20, 60)
# Label and unit of each number, by field.
NUMBERS = {
    **{name: (label, unit) for name, label, _, _, unit in WHOLE_SETTINGS},
    **{name: (label, "%") for name, label, _, _ in PERCENT_SETTINGS},
    **{name: (label, "minutes") for name, label in PARTS},
}


def read_session(form: Form, club: Club, base: Settings, known: frozenset[str]) -> Entry:
    """A session as typed; ``known`` are the routines that may be chosen."""
    held_on = form.day("held_on", "Day")
    entry = Entry(
        name=form.text("name", "Name"),
        held_on=held_on,
        starts_at=form.clock("starts_at", "Start"),
        minutes=form.whole("minutes", "Minutes", low=5, high=300, unit="minutes"),
        room=form.choice("room", "Room", [room.id for room in club.rooms]),
        routine=form.choice("routine", "Routine", sorted(known)),
        athletes=_read_who(form, club, held_on),
        staff=form.choices("staff", "Staff", [member.name for member in club.staff]),
        settings=_read_settings(form, club, base),
        heat=_read_heat(form),
        **{
            name: form.whole(name, label, low=0, high=MOST_PART_MINUTES, unit="minutes")
            for name, label in PARTS
        },
    )
    form.done()
    return entry


def view_of(entry: Entry, club: Club, shown: str = "") -> FormView:
    """An entry as its form shows it."""
    settings = entry.settings
    everybody = {a.id for a in club.athletes if is_expected(a, entry.held_on)}
    who = EVERYBODY if everybody <= set(entry.athletes) else SOME_NAMES
    values: dict[str, object] = {
        "name": entry.name,
        "held_on": entry.held_on,
        "starts_at": entry.starts_at,
        "minutes": entry.minutes,
        "room": entry.room,
        "routine": entry.routine,
        "who": who,
        "names": entry.athletes,
        "staff": entry.staff,
        "minor_rule": settings.minor_rule,
        "odd_squad": settings.odd_squad,
        "first_session_keeps_to_plain_rule": settings.first_session_keeps_to_plain_rule,
        "shown": shown,
        **{name: getattr(settings, name) for name, *_ in WHOLE_SETTINGS},
        **{name: 100 * getattr(settings, name) for name, *_ in PERCENT_SETTINGS},
        **{name: getattr(entry, name) for name, _ in PARTS},
        **_heat_values(entry.heat),
    }
    most = max(len(settings.banned_pairs), len(settings.required_pairs)) + SPARE_PAIR_ROWS
    for kind, pairs in ((NEVER, settings.banned_pairs), (ALWAYS, settings.required_pairs)):
        for row in range(1, min(most, MOST_PAIR_ROWS) + 1):
            pair = pairs[row - 1] if row <= len(pairs) else ("", "")
            values[f"{kind}_{row}_a"], values[f"{kind}_{row}_b"] = pair
    return FormView.of(**values)


def pair_rows(view: FormView) -> tuple[int, ...]:
    """Rows to show for pairs: those the form has."""
    rows = range(1, MOST_PAIR_ROWS + 1)
    return tuple(row for row in rows if f"{NEVER}_{row}_a" in view.typed) or (1, 2)


def read_slot(form: Form, club: Club) -> SlotEntry:
    """A slot of the week as typed."""
    entry = SlotEntry(
        name=form.text("name", "Name"),
        day=form.member("day", "Day", Weekday),
        starts_at=form.clock("starts_at", "From"),
        ends_at=form.clock("ends_at", "To"),
        kind=form.text("kind", "Kind"),
        is_hard=form.flag("is_hard"),
        squads=form.choices("squads", "Squads", club.squads),
        work=form.member("work", "Kind of work", Work),
        planned_effort=form.maybe_whole("planned_effort", "Planned effort", low=0, high=10),
        regions=_read_regions(form),
        to_failure=form.flag("to_failure"),
        room=form.choice("room", "Room", ["", *(room.id for room in club.rooms)]) or None,
        staff=form.choices("staff", "Staff", [member.name for member in club.staff]),
    )
    form.done()
    return entry


def _read_regions(form: Form) -> tuple[BodyRegion, ...]:
    known = [region.value for region in BodyRegion]
    return tuple(BodyRegion(each) for each in form.choices("regions", "Loads", known))


def slot_view(entry: SlotEntry, shown: str) -> FormView:
    """A slot as its form shows it."""
    return FormView.of(**{f.name: getattr(entry, f.name) for f in fields(entry)}, shown=shown)


def _read_who(form: Form, club: Club, day: date) -> tuple[str, ...]:
    who = form.choice("who", "Who is expected", (EVERYBODY, SOME_SQUADS, SOME_NAMES))
    squads = form.choices("squads", "Squads", club.squads)
    names = form.choices("names", "Names", [a.id for a in club.athletes])
    here = [a for a in club.athletes if is_expected(a, day)]
    if who == EVERYBODY:
        found = [a.id for a in here]
        if not found:
            form.refuse("who", "Who is expected", "the squad is empty", "Add athletes first")
    elif who == SOME_SQUADS:
        found = [a.id for a in here if a.squad in squads]
        if not found:
            form.refuse("squads", "Squads", "none with athletes is ticked", "Tick a squad")
    else:
        found = [a.id for a in club.athletes if a.id in names]
        if not found:
            form.refuse("names", "Names", "none is ticked", "Tick who is expected")
    return tuple(found)


def _read_settings(form: Form, club: Club, base: Settings) -> Settings:
    whole: dict[str, Any] = {
        name: form.whole(name, label, low=low, high=high, unit=unit)
        for name, label, low, high, unit in WHOLE_SETTINGS
    }
    shares: dict[str, Any] = {
        name: round(form.number(name, label, low=low, high=high, unit="%") / 100, 6)
        for name, label, low, high in PERCENT_SETTINGS
    }
    return replace(
        base,
        **whole,
        **shares,
        minor_rule=form.member("minor_rule", "Minors", MinorRule),
        odd_squad=form.member("odd_squad", "Odd numbers", OddSquad),
        first_session_keeps_to_plain_rule=form.flag("first_session_keeps_to_plain_rule"),
        banned_pairs=_read_pairs(form, club, NEVER, base.banned_pairs),
        required_pairs=_read_pairs(form, club, ALWAYS, base.required_pairs),
    )


def _read_heat(form: Form) -> HeatReading | None:
    low, high = HEAT_C
    wet_bulb_globe, air = (
        form.maybe_number(name, label, low=low, high=high, unit="degC")
        for name, label in (("heat_wbgt_c", "Wet-bulb globe"), ("heat_air_c", "Air"))
    )
    humidity = form.maybe_number("heat_humidity", "Relative humidity", low=0, high=100, unit="%")
    pair = (("heat_air_c", "Air"), ("heat_humidity", "Relative humidity"))
    empty = [(name, label) for name, label in pair if not form.raw(name)]
    if len(empty) == 1 and not form.raw("heat_wbgt_c"):
        advice = "Write both, or the wet-bulb globe temperature"
        form.refuse(*empty[0], "is empty", advice)
    share = None if humidity is None else round(humidity / 100, 6)
    if wet_bulb_globe is None and (air is None or share is None):
        return None
    return HeatReading(wet_bulb_globe, air, share)


def _heat_values(heat: HeatReading | None) -> dict[str, object]:
    if heat is None:
        return {}
    told = {
        "heat_wbgt_c": heat.wet_bulb_globe_c,
        "heat_air_c": heat.air_c,
        "heat_humidity": None if heat.humidity_fraction is None else 100 * heat.humidity_fraction,
    }
    return {name: None if value is None else round(value, 6) for name, value in told.items()}


def _read_pairs(form: Form, club: Club, kind: str, former: Pairs) -> Pairs:
    known = ["", *(a.id for a in club.athletes)]
    found: list[tuple[str, str]] = []
    for row in range(1, MOST_PAIR_ROWS + 1):
        names = [f"{kind}_{row}_{side}" for side in "ab"]
        if not any(form.raw(name) for name in names):
            continue
        one, other = (form.choice(name, "Pair", known) for name in names)
        if not one or not other:
            empty = names[0] if not one else names[1]
            form.refuse(empty, "Pair", "has one name only", "Choose the other one, or clear it")
        found.append((one, other))
    return (*found, *former[MOST_PAIR_ROWS:])
