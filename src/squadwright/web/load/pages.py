"""The pages of load, put together from what was planned and told."""

from collections.abc import Sequence
from datetime import date, timedelta

from squadwright.camp.week import HARD_EFFORT
from squadwright.formulas.acute_chronic import LIMITS
from squadwright.formulas.session_load import DAYS_IN_A_WEEK
from squadwright.formulas.sources import find_source
from squadwright.model.calendar import monday_of
from squadwright.model.club import Club
from squadwright.model.effort import EFFORT_WORDS, EFFORTS
from squadwright.planning.audit.place import HARD_HOURS
from squadwright.planning.daily_load import LoadDay, ToldSession
from squadwright.planning.load_history import LoadHistory, is_told, week_of
from squadwright.planning.occasions import Occasion
from squadwright.services.load import SquadLoad
from squadwright.web.done.pages import effort_rests
from squadwright.web.forms import FormView
from squadwright.web.load.contexts import (
    AskedOne,
    Asking,
    AthleteLoadPage,
    DoorPage,
    HardBefore,
    RestPage,
    ToldLine,
    WeekPage,
)
from squadwright.web.load.paths import (
    athlete_load_path,
    door_path,
    rest_path,
    week_path,
)
from squadwright.web.load.words import load_rests, load_text, week_row
from squadwright.web.squad.words import athlete_path
from squadwright.web.today.paths import session_path
from squadwright.web.wording import count_text, day_text, number_text, short_day_text, time_text

MOST_NAMED = 4
MOST_ASKED = 4
WEEKS_SHOWN = 8
WEEK = timedelta(days=DAYS_IN_A_WEEK)


def week_page(found: SquadLoad, monday: date, today: date) -> WeekPage:
    """A week of everybody; ``found`` holds it, and the week before it."""
    names = found.club.shown_names()
    place = (monday - found.first).days
    rows = tuple(
        week_row(
            week_of(days[place : place + DAYS_IN_A_WEEK]),
            names[athlete],
            athlete_load_path(athlete),
            today,
        )
        for athlete, days in found.days.items()
    )
    sunday = monday + WEEK - timedelta(days=1)
    return WeekPage(
        line=f"{day_text(monday)} to {day_text(sunday)}.",
        earlier=week_path(monday - WEEK),
        later=week_path(monday + WEEK),
        asking=_asking(found, monday, today),
        most_asked=MOST_ASKED,
        heads=tuple(short_day_text(monday + timedelta(days=n)) for n in range(DAYS_IN_A_WEEK)),
        rows=rows,
        rests=load_rests(),
    )


def _asking(found: SquadLoad, monday: date, today: date) -> tuple[Asking, ...]:
    """What is to be asked, the latest first: of this week and the six days before today."""
    last = min(today, monday + WEEK - timedelta(days=1))
    first = min(monday, last - timedelta(days=6)) if monday_of(today) == monday else monday
    asked: list[Asking] = []
    day = last
    while day >= first:
        days = found.on(day)
        on = [o for o in found.occasions if o.day == day]
        asked += [a for o in reversed(on) if (a := _of_occasion(found.club, o, days)) is not None]
        idle = [a for a, one in days.items() if not is_told(one) and not one.missing]
        idle = [a for a in idle if days[a].load is None]
        if idle and day < today:
            asked.append(
                Asking(
                    short_day_text(day),
                    "Nothing planned",
                    f"{_named(found.club, idle)}: trained, or not?",
                    rest_path(day),
                    "No training",
                )
            )
        day -= timedelta(days=1)
    return tuple(asked)


def _of_occasion(club: Club, occasion: Occasion, days: dict[str, LoadDay]) -> Asking | None:
    missing = [a for a, day in days.items() if occasion in day.missing]
    if not missing:
        return None
    return Asking(
        f"{short_day_text(occasion.day)}, {time_text(occasion.starts_at)}",
        occasion.name,
        f"{len(missing)} of {len(occasion.athletes)} not told: {_named(club, missing)}",
        door_path(occasion),
        "Ask",
    )


def _named(club: Club, athletes: Sequence[str]) -> str:
    names = club.shown_names()
    more = f" and {len(athletes) - MOST_NAMED} more" if len(athletes) > MOST_NAMED else ""
    return ", ".join(names[a] for a in athletes[:MOST_NAMED]) + more


def door_page(
    found: SquadLoad,
    occasion: Occasion,
    *,
    wrong: str = "",
    typed: tuple[str, FormView] | None = None,
) -> DoorPage:
    """Everybody who was expected, those still to be asked first."""
    names, days = found.club.shown_names(), found.on(occasion.day)
    people = []
    meant = typed[0] if typed and typed[0] in occasion.athletes else occasion.athletes[0]
    for athlete in occasion.athletes:
        told = [t for t in days[athlete].told if t.slot == occasion.slot]
        is_typed = typed is not None and meant == athlete
        people.append(
            AskedOne(
                athlete,
                names[athlete],
                _told_words(told[-1]) if told else _rest_words(days[athlete]),
                typed[1] if typed and is_typed else FormView(),
                is_typed,
            )
        )
    hard = "" if occasion.effort is None else f", planned at {occasion.effort} of 10"
    return DoorPage(
        title=f"How hard was it: {occasion.name}",
        line=f"{day_text(occasion.day)}, {time_text(occasion.starts_at)}, "
        f"{count_text(occasion.minutes, 'minute')}{hard}.",
        path=door_path(occasion),
        back=week_path(monday_of(occasion.day)),
        minutes=occasion.minutes,
        wrong=wrong,
        to_ask=tuple(each for each in people if not each.told),
        told=tuple(each for each in people if each.told),
        efforts=tuple((n, EFFORT_WORDS.get(n, "")) for n in EFFORTS if n > 0),
        rests=(*load_rests()[:1], effort_rests()),
    )


def _told_words(told: ToldSession) -> str:
    if told.effort is None:
        return "there, effort not told"
    if not told.was_there:
        return "not there"
    return f"{number_text(told.effort)} of 10, {count_text(told.minutes, 'minute')}"


def _rest_words(day: LoadDay) -> str:
    return "no training that day" if day.rest_entry else ""


def rest_page(found: SquadLoad, day: date, view: FormView | None = None) -> RestPage:
    """Everybody of whom nothing is known on a day, marked already."""
    names = found.club.shown_names()
    people = tuple(
        (athlete, names[athlete])
        for athlete, one in found.on(day).items()
        if not is_told(one) and one.load is None
    )
    return RestPage(
        title="A day without training",
        line=f"{day_text(day)}.",
        path=rest_path(day),
        back=week_path(monday_of(day)),
        people=people,
        view=view or FormView.of(athletes=tuple(athlete for athlete, _ in people)),
    )


def athlete_load_page(
    club: Club, athlete: str, history: LoadHistory, *, today: date, view: FormView | None = None
) -> AthleteLoadPage:
    """The load of one athlete, the latest week first."""
    begun = history.begun_on
    weeks = [w for w in history.weeks if begun is not None and w.days[-1].day >= begun]
    name = club.shown_names()[athlete]
    since = "Nothing is told yet." if begun is None else f"Told since {day_text(begun)}."
    return AthleteLoadPage(
        title=f"Load: {name}",
        line=since,
        path=athlete_load_path(athlete),
        person_path=athlete_path(athlete),
        recent=_recent(history),
        hidden=history.recent.why_not if begun is not None else "",
        limits=tuple((words, find_source(key).label) for words, key in LIMITS),
        bias=_bias(history),
        rows=tuple(
            week_row(week, short_day_text(week.monday), week_path(week.monday), today)
            for week in reversed(weeks[-WEEKS_SHOWN:])
        ),
        told=tuple(_told_lines(history, today)),
        hard_before=_hard_before(club, athlete, history, today),
        view=view or FormView.of(day=today),
        efforts=tuple((str(n), f"{n} {EFFORT_WORDS.get(n, '')}".strip()) for n in EFFORTS if n > 0),
        rests=load_rests(),
    )


def _hard_before(club: Club, athlete: str, history: LoadHistory, today: date) -> HardBefore | None:
    """What a hard session beside those of the week means for the one that follows it.

    Only days are known of what is told, so it is counted in days: the same one, or the next.
    """
    hard = [
        (day.day, each)
        for day in history.days
        for each in day.told
        if each.entry and not each.slot and (each.effort or 0) >= HARD_EFFORT
    ]
    ahead = sorted(
        (s for s in club.sessions if s.held_on >= today and athlete in s.athletes),
        key=lambda s: (s.held_on, s.starts_at),
    )
    if not hard or not ahead:
        return None
    (day, last), following = hard[-1], ahead[0]
    apart = (following.held_on - day).days
    if not 0 <= apart <= 1:
        return None
    when = "the same day as" if apart == 0 else "the day before"
    return HardBefore(
        f"{last.name} ({number_text(last.effort or 0)} of 10) lies {when} {following.name}.",
        f"Hard work at least {HARD_HOURS:.0f} h apart is the coach's setting: ask how it goes, "
        "and take something off where it is needed.",
        following.name,
        session_path(following),
    )


def _recent(history: LoadHistory) -> tuple[str, ...]:
    recent = history.recent
    if recent.recent_mean is None or recent.earlier_mean is None:
        return ()
    first = (
        f"{load_text(recent.recent_mean)} AU a day over the last 7 days "
        f"({recent.known_recent_days} known), {load_text(recent.earlier_mean)} over the 21 days "
        f"before; {recent.known_usual_days} of 28 days are known."
    )
    ratios = (
        ("the last 7 days over the 21 before", recent.uncoupled),
        ("over all 28", recent.coupled),
        ("exponential means of 7 and 28 days", recent.exponential),
    )
    said = ", ".join(f"{words} {ratio:.2f}" for words, ratio in ratios if ratio is not None)
    return (first, f"As ratios: {said}.", recent.warning)


def _bias(history: LoadHistory) -> str:
    bias = history.bias
    if bias is None:
        return ""
    harder = "harder" if bias.mean >= 0 else "easier"
    return (
        f"Over {count_text(bias.sessions, 'session')} with a planned effort it was told "
        f"{number_text(abs(bias.mean))} points {harder} than planned, on average."
    )


def _told_lines(history: LoadHistory, today: date) -> list[ToldLine]:
    lines = []
    for day in reversed(history.days):
        if (today - day.day).days > 4 * DAYS_IN_A_WEEK or day.day > today:
            continue
        where = short_day_text(day.day)
        for told in day.told:
            load = "" if told.load is None else f"{load_text(told.load)} AU"
            lines.append(ToldLine(where, f"{told.name}: {_told_words(told)}", load, told.entry))
        if day.rest_entry:
            lines.append(ToldLine(where, "no training", "0 AU", day.rest_entry))
    return lines
