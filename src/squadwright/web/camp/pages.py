"""The pages of the camp, put together from its plan."""

from collections.abc import Iterable, Sequence
from datetime import date
from urllib.parse import quote, urlencode

from squadwright.camp.problem import CampProblem
from squadwright.camp.season import Season
from squadwright.model.athlete import Priority
from squadwright.model.camp_rules import CampRules
from squadwright.model.club import Club
from squadwright.printing.camp_words import NEVER_TRUTH, camp_words, days_words, short_day
from squadwright.printing.season_words import season_words
from squadwright.services.camp import CampView
from squadwright.services.camp_take_over import Offer, Word
from squadwright.services.event_dates import NewEvent
from squadwright.web.camp.contexts import (
    AthletePage,
    CampPage,
    CampRow,
    DateRow,
    DatesPage,
    OfferRow,
    PlanPage,
    PlanRow,
    SeasonPage,
)
from squadwright.web.forms import Form, FormView
from squadwright.web.restrictions.rows import restrictions_path
from squadwright.web.squad.words import athlete_path as person_path
from squadwright.web.today.contexts import Rests
from squadwright.web.wording import capital, day_text

PATH = "/camp"
PRIORITIES = ((Priority.A.value, "A: to peak for"), (Priority.B.value, "B: to take part in"))
USUAL_NAME = "Event"
LONGEST_NAME = 120
DAY = "day-"
GONE = "No longer in the squad"


def camp_page(view: CampView) -> CampPage:
    """The camp this week."""
    words, season = camp_words(view), season_words(view.club, view.problem, view.season)
    athletes = words.athletes if words else ()
    return CampPage(
        line=f"{days_words(view)}.",
        rows=tuple(
            CampRow(a.name, athlete_path(a.id), capital(a.phase), a.next_event, a.this_week)
            for a in athletes
        ),
        in_short=season.in_short,
        trouble=view.trouble,
    )


def plan_page(view: CampView, offers: Sequence[Offer]) -> PlanPage:
    """The plan of the squad."""
    words = camp_words(view)
    return PlanPage(
        line=f"{days_words(view)}.",
        trouble=view.trouble,
        words=words,
        rows=tuple(
            PlanRow(a.name, athlete_path(a.id), a.next_event, a.in_short)
            for a in (words.athletes if words else ())
        ),
        offers=tuple(_offer(offer) for offer in offers),
        never=NEVER_TRUTH,
        rests=_rests(view.club.camp_rules),
    )


def athlete_page(view: CampView, athlete_id: str) -> AthletePage | None:
    """One athlete's line; None where the camp has no plan. NotFound where he is not in it."""
    number, _ = view.athlete(athlete_id)
    words = camp_words(view)
    if words is None:
        return None
    season = season_words(view.club, view.problem, view.season)
    return AthletePage(
        words=words.athletes[number],
        squad=words.squad,
        phases=season.athletes[number].phases,
        person_path=person_path(athlete_id),
        bars_path=f"{restrictions_path(athlete_id)}/new",
        never=NEVER_TRUTH,
    )


def season_page(
    club: Club, problem: CampProblem, season: Season, view: FormView, tests_on: date | None
) -> SeasonPage:
    """The season of the squad, with where the tests could go."""
    asked = {} if tests_on is None else {"tests": tests_on.isoformat()}
    query = f"?{urlencode(asked)}" if asked else ""
    return SeasonPage(
        view=view,
        words=season_words(club, problem, season, tests_on),
        sheet_path=f"{PATH}/season/season.pdf{query}",
    )


def dates_page(club: Club, today: date, view: FormView) -> DatesPage:
    """Everybody who is no guest, with what is ahead."""
    names = club.shown_names()
    here = [a.id for a in club.athletes if a.guest_until is None]
    gone = [each for each in _asked_for(view.typed) if each not in here]
    rows = [DateRow(each, names[each], _ahead(club, each, today)) for each in here]
    rows += [DateRow(each, GONE, "") for each in gone]
    return DatesPage(view=view, rows=tuple(rows), priorities=PRIORITIES)


def _asked_for(fields: Iterable[str]) -> list[str]:
    """Ids of the athletes a form has days of."""
    return [name.removeprefix(DAY) for name in fields if name.startswith(DAY)]


def read_dates(form: Form, club: Club) -> list[NewEvent]:
    """The events that were typed: an athlete without a day is left out."""
    names, found = club.shown_names(), []
    here = [athlete.id for athlete in club.athletes if athlete.guest_until is None]
    for field in _asked_for(name for name, value in form.items() if value.strip()):
        if field not in here:
            form.refuse(f"{DAY}{field}", "Day", f"is of somebody {GONE.lower()}", "Empty it")
    for field in here:
        name = form.text(
            f"name-{field}",
            f"Event of {names[field]}",
            is_required=False,
            longest=LONGEST_NAME,
        )
        day = form.maybe_day(f"{DAY}{field}", f"Day of {names[field]}")
        level = form.raw(f"priority-{field}") or Priority.A.value
        if level not in (Priority.A.value, Priority.B.value):
            form.refuse(f"priority-{field}", "A or B", "is not one of them", "Choose A or B")
            level = Priority.A.value
        if day is not None:
            found.append(NewEvent(field, name or USUAL_NAME, day, Priority(level)))
        elif name:
            form.refuse(f"{DAY}{field}", f"Day of {names[field]}", "is empty", "Choose a day")
    form.done()
    return found


def athlete_path(athlete: str) -> str:
    """The page of an athlete in the camp."""
    return f"{PATH}/plan/{quote(athlete)}"


def _ahead(club: Club, athlete: str, today: date) -> str:
    events = [e for e in club.athlete(athlete).events if e.starts_on >= today]
    events.sort(key=lambda e: e.starts_on)
    return ", ".join(f"{e.name} ({e.priority.value}) {short_day(e.starts_on)}" for e in events)


def _offer(offer: Offer) -> OfferRow:
    session = offer.session
    name = quote(session.id)
    return OfferRow(
        name=f"{session.name}, {day_text(session.held_on)}",
        path=f"/today/{name}",
        action=f"{PATH}/take-over/{name}",
        words=tuple(_word(word) for word in offer.words),
        more=tuple(
            f"{word.name} has {word.instead_of} in the plan of the session, and {word.rounds} in "
            "the camp: it stays so unless you raise it by hand"
            for word in offer.more
        ),
    )


def _word(word: Word) -> str:
    return f"{word.name}: {word.rounds} instead of {word.instead_of} ({word.reason})"


def _rests(rules: CampRules) -> tuple[Rests, ...]:
    least, most = 100 * rules.least_cut, 100 * rules.most_cut
    return (
        Rests(
            "Rounds",
            "the mean effect over draws of each athlete's response is made as large as it can be; "
            f"the taper of an A event takes off {least:g} to {most:g} % at the same load, and no "
            "session is dropped",
            "the taper's default of 41 to 60 %: Bosquet and others 2007; floors, rises and weights "
            "are the coach's settings, on the page of rules",
        ),
        Rests(
            "Response",
            "two exponentials, one for fitness and one for fatigue, with constants that spread as "
            "far as the literature",
            "the equations: Imbach and others 2022; middle, spread and size are our estimate",
        ),
        Rests(
            "Gain",
            "the difference of two plans on draws that were not used in planning; it holds as far "
            "as the model does",
            "our arithmetic",
        ),
    )
