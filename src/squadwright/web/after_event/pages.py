"""The pages around and after an event, put together."""

from squadwright.library import exercise as library_exercise
from squadwright.model.athlete import Priority
from squadwright.planning.close_events import (
    CUT_SOURCE,
    SOURCE,
    Peak,
    Rounds,
    days_between,
    power_day,
)
from squadwright.planning.restriction_words import barred_line
from squadwright.planning.return_ramp import MASS_TOLERANCE
from squadwright.planning.return_ramp import SOURCE as RAMP_SOURCE
from squadwright.printing.camp_review_words import camp_review_words
from squadwright.printing.dose_rows import percent
from squadwright.printing.event_day_sheet import weigh_in_words
from squadwright.services.camp_review import CampReview
from squadwright.services.close_events import CloseEvents
from squadwright.services.return_ramp import Return
from squadwright.web.after_event.contexts import BackDay, BackPage, CloseDay, ClosePage, ReviewPage
from squadwright.web.after_event.paths import back_path, close_path, review_path
from squadwright.web.forms import FormView
from squadwright.web.squad.words import athlete_path
from squadwright.web.today.contexts import Rests
from squadwright.web.today.paths import session_path
from squadwright.web.wording import capital, count_text, day_text, short_day_text


def close_page(found: CloseEvents, view: FormView) -> ClosePage:
    """Two events close together: which one counts, what each day is for, what is left to do."""
    first, second = found.first, found.second
    apart = (second.starts_on - first.starts_on).days
    power = power_day(first.starts_on, second.starts_on)
    volume = [
        f"{block}: {_rounds(rounds)}"
        for block, rounds in dict(
            pair for session in found.sessions for pair in session.rounds
        ).items()
    ] or [f"A circuit of 4 rounds: {_rounds(Rounds(4, 2))}"]
    return ClosePage(
        title=f"{found.name}: two events close together",
        line=f"{first.name} on {day_text(first.starts_on)}, {second.name} on "
        f"{day_text(second.starts_on)}: {count_text(apart, 'day')} apart.",
        path=close_path(found.athlete.id, first.id),
        athlete_path=athlete_path(found.athlete.id),
        view=view,
        peaks=tuple((peak.value, capital(peak.value)) for peak in Peak),
        days=tuple(
            CloseDay(short_day_text(each.day), each.name, each.words)
            for each in days_between(first, second)
        ),
        volume=(
            *volume,
            f"One touch of power, on {short_day_text(power)}, "
            f"{(second.starts_on - power).days} days before the second event."
            if power is not None
            else "No day lies 3 days clear of both: no touch of power in between.",
        ),
        sessions=tuple(
            (
                f"{short_day_text(each.session.held_on)}: {each.session.name}",
                _new(each.new),
                session_path(each.session),
            )
            for each in found.sessions
        ),
        weigh_in=f"Second {weigh_in_words(second).lower()[:8]}{weigh_in_words(second)[8:]}",
        rests=(
            Rests("Rounds", "as near the middle as whole rounds allow", CUT_SOURCE),
            Rests("Days", "recover, one touch of power, then taper, travel and scales", SOURCE),
        ),
    )


def peak_now(found: CloseEvents) -> str:
    """Which of the two counts, as it stands."""
    held = (found.first.priority, found.second.priority)
    alike = Peak.BOTH if held == (Priority.A, Priority.A) else None
    known = {peak.priorities(): peak for peak in Peak}
    peak = alike or known.get(held)
    return "" if peak is None else peak.value


def _rounds(rounds: Rounds) -> str:
    near = "" if rounds.is_within else ", as near 41 to 60 % as whole rounds allow"
    return (
        f"{rounds.left} of {rounds.written} rounds at the same load, {percent(rounds.cut)} "
        f"less{near}."
    )


def _new(new: tuple[str, ...]) -> str:
    if not new:
        return "Nothing new."
    names = ", ".join(library_exercise(each).name for each in new)
    return f"New, so swap: {names}."


def back_page(found: Return) -> BackPage:
    """The week after an event."""
    event = found.event
    return BackPage(
        title=f"{found.name}: the way back",
        line=f"After {event.name} on {day_text(event.starts_on)}.",
        athlete_path=athlete_path(found.athlete.id),
        review_path=review_path(found.athlete.id, event.id),
        medical=tuple(capital(barred_line(each)) for each in found.ramp.medical),
        held=tuple(capital(each) for each in found.ramp.jumps_held),
        days=tuple(
            BackDay(short_day_text(each.day), each.step.name, each.step.words, each.held)
            for each in found.ramp.days
        ),
        rests=(
            Rests("Steps", "one a day; where a day feels wrong, it is done again", RAMP_SOURCE),
            Rests(
                "Jumps",
                "out from pain 3 of 10, and until body mass since the event is read and within "
                f"{percent(MASS_TOLERANCE)} of the median of the eight weeks before",
                "defaults of ours, no source",
            ),
        ),
    )


def review_page(found: CampReview, view: FormView) -> ReviewPage:
    """A camp looked back on."""
    ids = found.athlete.id, found.event.id
    words = camp_review_words(found)
    return ReviewPage(
        title=f"{found.name}: the camp for {found.event.name}",
        line=f"{day_text(found.event.starts_on)}. Camp from {words.days}.",
        path=review_path(*ids),
        athlete_path=athlete_path(found.athlete.id),
        back_path=back_path(*ids),
        view=view,
        words=words,
        is_kept=found.kept is not None,
        rests=(
            Rests(
                "Camp",
                "the days since the event before, 12 weeks at most",
                "a default of ours",
            ),
            Rests(
                "Taper",
                "load of the mean day of the last 7 against that of the 21 before, where 80 % of "
                "both are known; 41 to 60 % less volume had the largest gain",
                "Bosquet 2007, Med Sci Sports Exerc 39:1358, read; in combat sports thin",
            ),
            Rests(
                "Earlier camps",
                "the athlete's own, three recorded ones at least",
                "a default of ours",
            ),
        ),
    )


def filled(found: CampReview) -> FormView:
    """The three lines as they are kept, else as a start."""
    lines = camp_review_words(found).lines
    return FormView.of(keep=lines.keep, change=lines.change, first=lines.first)
