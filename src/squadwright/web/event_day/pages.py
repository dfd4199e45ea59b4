"""The pages of a day of competition, put together from who competes."""

from datetime import date, datetime

from squadwright.model.club import Club
from squadwright.model.record import record_of_day
from squadwright.planning.mat_record import MatRecord, OnTheDay
from squadwright.planning.mat_side import (
    BETWEEN_BOUTS,
    BOUTS_AHEAD_SOURCE,
    COMMON_PRACTICE,
    MINUTES_SOURCE,
    MOST_AHEAD,
    MOST_MINUTES,
    Called,
    CallSettings,
    Move,
    Standing,
    queue,
)
from squadwright.printing.event_day_sheet import bouts_words, weigh_in_words, weighs_at
from squadwright.services.event_day import Competitor, EventDay, event_days
from squadwright.web.event_day.contexts import Card, DayLink, DaysPage, MatSidePage, QueueLine
from squadwright.web.forms import Form, FormView
from squadwright.web.hall import Visitor
from squadwright.web.wording import count_text, day_text

PATH = "/camp/event-day"
AHEAD_KEYS = ("0", "1", "2", "3", "4", "5", "6", "8", "10", "12")


def event_day_path(day: date) -> str:
    """The sheet of a day."""
    return f"{PATH}/{day.isoformat()}"


def days_page(club: Club, *, today: date) -> DaysPage:
    """The days of competition from today on."""
    return DaysPage(
        tuple(
            DayLink(
                day_text(found.day),
                ", ".join(f"{c.name} ({c.event.name})" for c in found.competitors),
                event_day_path(found.day),
            )
            for found in event_days(club, since=today)
        )
    )


def card_key(competitor: Competitor) -> str:
    """What a card is known by on the device: the athlete and his event."""
    return f"{competitor.athlete.id}.{competitor.event.id}"


def known_times(found: EventDay) -> dict[str, str]:
    """When the weigh-ins open, as far as the events say it."""
    times = {f"weigh-{card_key(c)}": weighs_at(c.event) for c in found.competitors}
    return {name: at for name, at in times.items() if at}


def noted_fields(found: EventDay, record: MatRecord) -> dict[str, str]:
    """The fields as the record has them, over what the events say of weigh-ins."""
    fields = known_times(found)
    for competitor in found.competitors:
        key, noted = card_key(competitor), _noted(record, competitor)
        if noted.ahead is not None:
            fields[f"ahead-{key}"] = f"{noted.ahead.value:.0f}"
        if noted.weighs_at is not None:
            fields[f"weigh-{key}"] = f"{noted.weighs_at:%H:%M}"
        fields |= {f"weighed-{key}": "yes"} if noted.has_weighed else {}
        fields |= {f"over-{key}": "yes"} if noted.is_over else {}
    return fields


def noted_standings(found: EventDay, record: MatRecord, *, now: datetime) -> tuple[Standing, ...]:
    """Where each stands by the record at a moment."""
    return tuple(
        Standing(
            card_key(competitor),
            ahead=None if ahead is None else int(ahead.value or 0),
            is_over=noted.is_over,
            is_barred=bool(competitor.barred),
            minutes_gone=0 if ahead is None else (now - ahead.at).total_seconds() / 60,
        )
        for competitor in found.competitors
        for noted in (_noted(record, competitor),)
        for ahead in (noted.ahead,)
    )


def _noted(record: MatRecord, competitor: Competitor) -> OnTheDay:
    return record.of(competitor.athlete.id, competitor.event.id)


def read_settings(form: Form, usual: CallSettings) -> CallSettings:
    """The settings that were asked for; what was left out is as noted, or as usual."""
    ahead = form.maybe_whole("bouts_ahead", "Bouts ahead", low=1, high=MOST_AHEAD, unit="bouts")
    minutes = form.maybe_whole(
        "minutes", "Minutes a bout", low=1, high=MOST_MINUTES, unit="minutes"
    )
    return CallSettings(ahead or usual.bouts_ahead, minutes or usual.minutes_a_bout)


def read_standings(form: Form, found: EventDay) -> tuple[Standing, ...]:
    """How many bouts are ahead of each, as far as it was said."""
    standings = []
    for competitor in found.competitors:
        key = card_key(competitor)
        said = ""
        if form.raw(f"ahead-{key}"):
            said = form.choice(f"ahead-{key}", competitor.name, AHEAD_KEYS)
        if form.raw(f"weigh-{key}"):
            form.clock(f"weigh-{key}", f"Weigh-in of {competitor.name}")
        is_over = form.flag(f"over-{key}")
        ahead = int(said) if said in AHEAD_KEYS else None
        standings.append(Standing(key, ahead, is_over, is_barred=bool(competitor.barred)))
    form.done()
    return tuple(standings)


def mat_side_page(
    found: EventDay,
    standings: tuple[Standing, ...],
    settings: CallSettings,
    view: FormView,
    record: MatRecord,
    guest: Visitor,
) -> MatSidePage:
    """The sheet of a day, as somebody may see it."""
    own = record_of_day(found.day)
    people = len({c.athlete.id for c in found.competitors})
    names = {card_key(c): c.name for c in found.competitors}
    place = {card_key(c): index for index, c in enumerate(found.competitors, 1)}
    where = {card_key(c): _where(c, found) for c in found.competitors}
    return MatSidePage(
        title="At the mats",
        line=f"{day_text(found.day)}: {count_text(people, 'athlete')}.",
        path=event_day_path(found.day),
        record=own,
        events=f"/live/{own}/events",
        devices_path=f"/devices/{own}",
        is_coach=guest.is_coach,
        author=guest.device.name if guest.device is not None else "",
        view=view,
        queue=tuple(_queue_line(each, names, place, where) for each in queue(standings, settings)),
        cards=tuple(
            Card(
                key=card_key(c),
                athlete_id=c.athlete.id,
                event_id=c.event.id,
                name=c.name,
                over=_over(_noted(record, c)),
                barred=c.barred,
                event=c.event.name,
                weigh_in=weigh_in_words(c.event),
                bouts=bouts_words(c.event),
                where=where[card_key(c)],
            )
            for c in found.competitors
        ),
        weigh_ins=_weigh_ins(found, view),
        ahead_keys=tuple((key, key) for key in AHEAD_KEYS),
        steps=BETWEEN_BOUTS,
        sources=(
            f"Bouts ahead: {BOUTS_AHEAD_SOURCE}.",
            f"Minutes a bout: {MINUTES_SOURCE}.",
            f"Between two bouts: {COMMON_PRACTICE}. In a simulated event of five bouts in two days "
            "the power of legs and the strength of arms fell as it went on (Kraemer 2001, from a "
            "summary): expect less of the last bout.",
        ),
    )


def _where(competitor: Competitor, found: EventDay) -> str:
    """His event, where the day has several."""
    events = {each.event.name for each in found.competitors}
    return competitor.event.name if len(events) > 1 else ""


def _over(noted: OnTheDay) -> str:
    return f"Bouts over: {len(noted.bouts)}." if noted.bouts else ""


def _weigh_ins(found: EventDay, view: FormView) -> str:
    """When they weigh in, the earliest first, as far as it was said."""
    said = sorted(
        (view.value(f"weigh-{key}"), c.name)
        for c in found.competitors
        if (key := card_key(c)) and view.value(f"weigh-{key}") and not view.wrong(f"weigh-{key}")
    )
    return ", ".join(f"{at} {name}" for at, name in said)


def _queue_line(
    called: Called, names: dict[str, str], place: dict[str, int], where: dict[str, str]
) -> QueueLine:
    key = called.standing.athlete
    move, estimate = {
        Move.WARM_UP: ("Warm up now", _to_call(called)),
        Move.WAIT: (f"Warm up in about {called.minutes_to_warm_up} min", _to_call(called)),
        Move.NOT_SAID: ("Bouts ahead not said", ""),
        Move.OVER: ("Finished for the day", ""),
        Move.BARRED: ("May not compete", ""),
    }[called.move]
    is_now = called.move is Move.WARM_UP
    return QueueLine(names[key], f"card-{place[key]}", move, estimate, is_now, where[key])


def _to_call(called: Called) -> str:
    if called.standing.ahead == 0:
        return "next on the mat"
    return f"about {called.minutes_to_call} min to the call"
