"""Loads as they are read at the bar: by bar and wave, with what each rests on."""

from dataclasses import replace

from squadwright.model.club import Club
from squadwright.model.marks import bar_number
from squadwright.model.plan import BarPlan, BarUser, Dose, Plan, exercise_names
from squadwright.model.session import Session
from squadwright.planning.gates.gate import gate_of
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.dose_rows import box_text, percent
from squadwright.printing.loaded_bars import LoadedBar, bars_in_use
from squadwright.printing.people import exercise_name, joined, rounds_text
from squadwright.printing.squad_groups import groups_of
from squadwright.printing.wording import as_sentence
from squadwright.web.drawing.bar import draw_bar
from squadwright.web.today.change import change_path, word_text
from squadwright.web.today.contexts import BarView, DoseView, Fact, LoadView, PlaceTable, PlaceView
from squadwright.web.today.paths import what_if_path
from squadwright.web.wording import count_text
from squadwright.words import kilogram_text, listed, plain_number


def bar_views(plan: Plan, club: Club, session: Session) -> tuple[BarView, ...]:
    """Every bar with its loads in wave order."""
    doses = {(dose.athlete, dose.block): dose for dose in plan.doses}

    def view_of(dose: Dose) -> DoseView:
        return dose_view(plan, club, session, dose)

    drawn = bars_in_use(plan, club, PrintedUnit.KILOGRAM)
    has_several = len({bar.block for bar in plan.bars}) > 1
    views = []
    for index, (bar, picture) in enumerate(zip(plan.bars, drawn, strict=True)):
        users = sorted(bar.wave_users, key=lambda user: user.wave)
        views.append(
            BarView(
                number=bar_number(index),
                name=bar.name,
                mass=kilogram_text(bar.bar_kg),
                block=bar.block if has_several else "",
                loads=tuple(
                    replace(
                        _load(view_of(doses[user.athlete, bar.block]), user, load),
                        works_with=_works_with(plan, bar, user),
                    )
                    for user, load in zip(users, picture.loads, strict=True)
                ),
            )
        )
    return tuple(views)


def place_table(plan: Plan, club: Club, session: Session) -> PlaceTable:
    """What those do who have no bar for it, group by group."""
    on_bars = {(user.athlete, bar.block) for bar in plan.bars for user in bar.wave_users}
    groups = groups_of(plan)
    rows = [
        PlaceView(
            joined(groups.get(plan.shown_name(dose.athlete), ())),
            dose_view(plan, club, session, dose),
        )
        for dose in plan.doses
        if (dose.athlete, dose.block) not in on_bars
    ]
    return PlaceTable(
        rows=tuple(sorted(rows, key=lambda row: row.groups)),
        has_loads=any(row.dose.load for row in rows),
        has_balls=any(row.dose.balls for row in rows),
        has_boxes=any(row.dose.boxes for row in rows),
    )


def dose_view(plan: Plan, club: Club, session: Session, dose: Dose) -> DoseView:
    """One dose in words."""
    names = exercise_names(plan)
    balls = [kilogram_text(e.ball_kg) for e in dose.exercises if e.ball_kg is not None]
    boxes = [box_text(e) for e in dose.exercises if e.box_height_m is not None]
    done = [count_text(dose.contacts, "contact")] if dose.contacts else []
    done += [count_text(dose.throws, "throw")] if dose.throws else []
    has_several = sum(d.athlete == dose.athlete for d in plan.doses) > 1
    block = dose.block if has_several else ""
    return DoseView(
        name=plan.shown_name(dose.athlete),
        load="" if dose.load_kg is None else kilogram_text(dose.load_kg),
        part=exercise_name(names, dose.exercise) if dose.exercise else block,
        balls=_unbroken(balls),
        boxes=_unbroken(boxes),
        contacts=joined(done),
        rounds=_rounds(plan, dose),
        limits=_limits(dose, names),
        swaps=tuple(
            f"{exercise_name(names, s.to_exercise)} instead of "
            f"{exercise_name(names, s.from_exercise)}: {s.reason.rstrip('.')}."
            for s in dose.swaps
        ),
        cautions=tuple(as_sentence(caution) for caution in dose.cautions),
        reason=as_sentence(dose.reason),
        less=as_sentence(joined(gate_of(club, club.athlete(dose.athlete), session).caps.why)),
        facts=_facts(dose),
        word=word_text(session, dose),
        change_path=change_path(session, dose),
        what_if_path=what_if_path(session, dose),
        is_guest=club.athlete(dose.athlete).guest_until is not None,
        is_kit_limited=dose.kit_limited,
    )


def _works_with(plan: Plan, bar: BarPlan, user: BarUser) -> str:
    """With whom somebody works who is alone at his bar; empty where his bar says it."""
    if len(bar.wave_users) > 1:
        return ""
    lines = (g for g in plan.groups if g.block == bar.block and user.athlete in g.athletes)
    others = [a for a in next(lines).athletes if a != user.athlete]
    number = {
        each.athlete: bar_number(index)
        for index, other in enumerate(plan.bars)
        if other.block == bar.block
        for each in other.wave_users
    }
    named = [
        f"{plan.shown_name(a)} ({f'bar {number[a]}' if a in number else 'no bar'})" for a in others
    ]
    return f"Works with {listed(named)}." if named else ""


def _load(dose: DoseView, user: BarUser, load: LoadedBar) -> LoadView:
    changes = [f"put on {load.put_on}"] if load.put_on else []
    changes += [f"take off {load.take_off}"] if load.take_off else []
    return LoadView(
        wave=user.wave,
        dose=dose,
        drawing=draw_bar(load.discs),
        per_side=f"{load.per_side} on each side" if load.per_side else "the bar alone",
        change=as_sentence(joined(changes)),
    )


def _unbroken(sizes: list[str]) -> str:
    """Sizes in a row, each number on one line with its unit."""
    return joined([size.replace(" ", "\N{NO-BREAK SPACE}") for size in dict.fromkeys(sizes)])


def _rounds(plan: Plan, dose: Dose) -> str:
    """The rounds, where they are not those of everybody in the block."""
    whole = max(d.first_round + d.rounds - 1 for d in plan.doses if d.block == dose.block)
    if (dose.first_round, dose.rounds) == (1, whole):
        return ""
    if dose.rounds == 0:
        return f"No round of {whole}"
    if dose.first_round == 1:
        return f"{count_text(dose.rounds, 'round')} of {whole}"
    return f"Round{'' if dose.rounds == 1 else 's'} {rounds_text(dose)} of {whole}"


def _limits(dose: Dose, names: dict[str, str]) -> str:
    if dose.limiting_exercise is None:
        return ""
    limiting = exercise_name(names, dose.limiting_exercise)
    if dose.limiting_round is None:
        return limiting
    return f"{limiting}, round {dose.limiting_round}"


def _facts(dose: Dose) -> tuple[Fact, ...]:
    """What a load rests on, only what there is."""
    if dose.load_kg is None:
        return ()
    asked = dose.target_probability
    facts = [
        ("Chance of every repetition", _chance(dose.completion_probability, asked)),
        ("Load wanted", _mass(dose.target_kg)),
        ("The plain rule would give", _mass(dose.plain_rule_kg)),
        ("Rests on", dose.basis.value),
        ("Left in reserve at the end", _reserve(dose.reserve_reps)),
        ("Held down by", "the plates in the store" if dose.kit_limited else ""),
    ]
    return tuple(Fact(name, words) for name, words in facts if words)


def _chance(chance: float | None, asked: float | None) -> str:
    if chance is None:
        return ""
    return f"{percent(chance)}; asked for is {percent(asked)}" if asked else percent(chance)


def _mass(mass_kg: float | None) -> str:
    return "" if mass_kg is None else kilogram_text(round(mass_kg, 2))


def _reserve(repetitions: float | None) -> str:
    if repetitions is None:
        return ""
    return f"{plain_number(repetitions, 1)} repetitions of what gives out first"
