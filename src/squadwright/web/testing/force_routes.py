"""A file of force over time: choose it, look at the jump, keep it."""

from dataclasses import dataclass
from datetime import UTC, date, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.force_time.countermovement import CountermovementJump
from squadwright.model.club import Club
from squadwright.services.after import AUTHOR
from squadwright.services.clubs import load_club
from squadwright.services.force_file import (
    TEST,
    JumpFile,
    jump_of,
    keep_jump,
    method_text,
    packed,
    read_jump_file,
    refuse_barred,
    unpacked,
)
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.site import site
from squadwright.web.testing.force_contexts import ForceFilePage, JumpView
from squadwright.web.testing.paths import FORCE_FILE, path_of_test, results_path
from squadwright.web.undo.routes import diary_undo
from squadwright.words import plain_number

KEEP = f"{FORCE_FILE}/keep"
COLUMNS = (1, 200)
RATE_HZ = (100.0, 20_000.0)
WEIGHING_S = (0.1, 10.0)
USUAL_WEIGHING_S = 1.0


@dataclass(frozen=True)
class _Asked:
    athlete: str
    day: date
    force: int | None
    time: int | None
    rate_hz: float | None
    weighing_s: float


def choose(request: Request) -> Response:
    """Choose a file."""
    here = site(request)
    view = FormView.of(day=here.today(), weighing=f"{USUAL_WEIGHING_S:g}")
    return render(request, _page(load_club(here.keeper), view))


def look(request: Request) -> Response:
    """Work the jump out and show it; nothing is stored."""
    club, form = load_club(site(request).keeper), Form.of(request)
    try:
        asked = _read(form, club, today=site(request).today())
        refuse_barred(club.athlete(asked.athlete), asked.day)
        name, data = form.file("file", "The file")
        form.done()
        found = read_jump_file(
            name,
            data,
            force=asked.force,
            time=asked.time,
            rate_hz=asked.rate_hz,
            weighing_s=asked.weighing_s,
        )
        shown = _jump_view(found, asked)
    except (InvalidInput, OutsidePublishedRange) as error:
        return _again(request, club, form, error)
    return render(request, _page(club, _typed(form), shown))


def keep(request: Request) -> Response:
    """Keep the jump that was looked at."""
    here, form = site(request), Form.of(request)
    club = load_club(here.keeper)
    try:
        asked = _read(form, club, today=here.today())
        rate_hz = form.number("rate_of_it", "Rate", low=RATE_HZ[0], high=RATE_HZ[1], unit="Hz")
        source = form.text("source", "The file")
        form.done()
        jump = jump_of(unpacked(form.raw("recording"), rate_hz), asked.weighing_s)
        mark = keep_jump(
            here.keeper,
            asked.athlete,
            asked.day,
            jump,
            source_file=source,
            author=AUTHOR,
            today=here.today(),
            now=datetime.now(UTC),
        )
    except (InvalidInput, OutsidePublishedRange) as error:
        return _again(request, club, form, error)
    return see_other(
        results_path(asked.athlete),
        changed=f"A jump of {100 * jump.height_impulse_m:.1f} cm is written.",
        undo=diary_undo(mark),
    )


def back(request: Request) -> Response:
    """A jump cannot be asked for again by its address: choose the file."""
    return see_other(FORCE_FILE)


def _read(form: Form, club: Club, *, today: date) -> _Asked:
    asked = _Asked(
        athlete=form.choice("athlete", "Athlete", [a.id for a in club.athletes]),
        day=form.day("day", "Day"),
        force=form.maybe_whole("force", "Force column", low=COLUMNS[0], high=COLUMNS[1]),
        time=form.maybe_whole("time", "Time column", low=COLUMNS[0], high=COLUMNS[1]),
        rate_hz=form.maybe_number("rate", "Rate", low=RATE_HZ[0], high=RATE_HZ[1], unit="Hz"),
        weighing_s=form.number(
            "weighing", "Stands still for", low=WEIGHING_S[0], high=WEIGHING_S[1], unit="s"
        ),
    )
    if asked.day > today:
        form.refuse("day", "Day", "has not come yet", "Give the day it was jumped")
    if asked.time is not None and asked.rate_hz is not None:
        form.refuse("rate", "Rate", "stands beside a column of times", "Give one of the two")
    form.done()
    return asked


def _jump_view(found: JumpFile, asked: _Asked) -> JumpView:
    heads = [f"column {found.force_column}{_head(found, found.force_column)}"]
    if found.time_column:
        heads.append(f"times from column {found.time_column}{_head(found, found.time_column)}")
    return JumpView(
        head=f"{100 * found.jump.height_impulse_m:.1f} cm by impulse",
        facts=(
            ("File", f"{found.name}: force from {', '.join(heads)}, {found.trace.rate_hz:g} Hz"),
            *_facts(found.jump),
        ),
        cautions=found.jump.cautions,
        hidden=(
            ("athlete", asked.athlete),
            ("day", asked.day.isoformat()),
            ("weighing", f"{asked.weighing_s:g}"),
            ("source", found.name),
            ("rate_of_it", plain_number(found.trace.rate_hz, 6)),
            ("recording", packed(found.trace)),
        ),
    )


def _facts(jump: CountermovementJump) -> tuple[tuple[str, str], ...]:
    return (
        ("Method, kept with the number", method_text(jump)),
        ("By flight time", f"{100 * jump.height_flight_m:.1f} cm, another method: not compared"),
        ("Body mass on the plate", f"{jump.mass_kg:.1f} kg"),
        ("Take-off", f"{jump.take_off_velocity_m_s:.3f} m/s"),
        ("Time to take-off", f"{jump.time_to_take_off_s:.3f} s"),
        ("Reactive strength, modified", f"{jump.reactive_strength_index_modified:.3f} m/s"),
        ("Lowest point", f"{-100 * jump.depth_m:.1f} cm below standing"),
        ("Peak power", f"{jump.peak_power_w:.0f} W"),
        ("Landing peak", f"{jump.landing_peak_body_weights:.2f} body weights"),
    )


def _head(found: JumpFile, column: int) -> str:
    head = found.heads[column - 1]
    return f" ({head[:40]})" if head else ""


def _again(
    request: Request, club: Club, form: Form, error: InvalidInput | OutsidePublishedRange
) -> Response:
    if isinstance(error, OutsidePublishedRange):
        view = FormView(_typed(form).typed, error=str(error))
    else:
        view = form.refused(error)
    return render(request, _page(club, view), status=422)


def _typed(form: Form) -> FormView:
    return FormView({name: (value,) for name, value in reversed(form.items())})


def _page(club: Club, view: FormView, jump: JumpView | None = None) -> ForceFilePage:
    names = club.shown_names()
    people = sorted(names.items(), key=lambda each: each[1].casefold())
    return ForceFilePage(view, tuple(people), jump, path_of_test(TEST))


FORCE_ROUTES = (
    Route(FORCE_FILE, choose, methods=["GET"]),
    Route(FORCE_FILE, look, methods=["POST"]),
    Route(KEEP, back, methods=["GET"]),
    Route(KEEP, keep, methods=["POST"]),
)
