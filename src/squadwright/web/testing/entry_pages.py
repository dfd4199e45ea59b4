"""The sheet on which results of the squad are written."""

from datetime import date

from squadwright.library.test_columns import methods_of, shown_unit, written
from squadwright.model.athlete import Athlete
from squadwright.model.fitness_test import FitnessTest
from squadwright.planning.restriction_words import day_words
from squadwright.planning.test_day.barred import barred_from
from squadwright.services.test_results import Results
from squadwright.web.forms import FormView
from squadwright.web.question import Question
from squadwright.web.testing.contexts import ColumnHead, EnterPage, SheetRow
from squadwright.web.testing.forms import athlete_of_cell, units_of
from squadwright.web.testing.paths import enter_path, path_of_test
from squadwright.web.testing.words import value_words
from squadwright.web.wording import count_text

MOST_ROWS = 60


def fresh_sheet(test: FitnessTest, known: Results, day: date) -> FormView:
    """A sheet with what is usually so: the method of last time, the usual unit."""
    results = sorted(known.of_test(test.id), key=lambda r: r.day)
    methods = methods_of(test)
    used = [r.measured.method for r in results if r.measured.method in methods]
    return FormView.of(method=used[-1] if used else methods[0], day=day, unit=shown_unit(test))


def enter_page(
    test: FitnessTest,
    known: Results,
    view: FormView,
    who: dict[str, int | None],
    *,
    squad: str,
    today: date,
    question: Question | None = None,
) -> EnterPage:
    """The sheet as it was typed; ``who`` are the athletes of a planned day in their order."""
    plan = written(test)
    athletes = _chosen(known, who, squad)
    shown = athletes[:MOST_ROWS]
    method = view.value("method", methods_of(test)[0])
    units = units_of(plan.columns)
    return EnterPage(
        title=f"Results: {test.name}",
        line=test.protocol,
        action=enter_path(test.id),
        back=path_of_test(test.id),
        view=view,
        question=question,
        methods=tuple((m, m) for m in methods_of(test)),
        units=tuple((u, u) for u in units) if len(units) > 1 else (),
        columns=tuple(
            ColumnHead(c.key, c.label if units else f"{c.label} [{c.unit}]") for c in plan.columns
        ),
        rows=(
            *(_row(test, known, a, who, method, today) for a in shown),
            *_rows_of_gone(view, {a.id for a in shown}, known),
        ),
        squads=(("", "All squads"), *((s, s) for s in known.club.squads)) if not who else (),
        squad=squad,
        left_out=f"{count_text(len(athletes) - MOST_ROWS, 'athlete')} more: choose a squad."
        if len(athletes) > MOST_ROWS
        else "",
    )


def _rows_of_gone(view: FormView, shown: set[str], known: Results) -> list[SheetRow]:
    """Rows that were typed of people who are not shown, so that nothing typed is lost."""
    names = known.club.shown_names()
    typed = dict.fromkeys(athlete_of_cell(name) for name in view.typed)
    return [
        SheetRow(a, names.get(a, f"{a}, no more in the squad"), "", "", "", is_open=True)
        for a in typed
        if a and a not in shown
    ]


def _chosen(known: Results, who: dict[str, int | None], squad: str) -> list[Athlete]:
    if who:
        return [known.club.athlete(a) for a in who]
    names = known.club.shown_names()
    own = [a for a in known.club.athletes if squad in ("", a.squad)]
    return sorted(own, key=lambda a: names[a.id].casefold())


def _row(
    test: FitnessTest,
    known: Results,
    athlete: Athlete,
    who: dict[str, int | None],
    method: str,
    today: date,
) -> SheetRow:
    own = [
        r for r in known.by_athlete[athlete.id] if r.test == test.id and r.measured.method == method
    ]
    place = who.get(athlete.id)
    return SheetRow(
        id=athlete.id,
        name=known.club.shown_names()[athlete.id],
        place=f"{athlete.id}~{place or 0}" if who else "",
        last=f"last {value_words(own[-1])} on {day_words(own[-1].day)}" if own else "",
        barred="; ".join(barred_from(test, athlete, today, method=method)),
        is_open=any(not barred_from(test, athlete, today, method=m) for m in methods_of(test)),
    )
