"""What a plan rests on, said only where it does: views put together by hand."""

from dataclasses import replace

import pytest

from planning.people import MONDAY, bar, dose, person, planned, user
from squadwright.demo import demo_club
from squadwright.model.kit import CollarPairs
from squadwright.model.plan import Basis, Dose
from squadwright.planning.assumptions import FATIGUE_SENTENCE, assumptions
from squadwright.planning.attendance import PersonToday
from squadwright.planning.audit.view import AuditView
from squadwright.units import kilograms

CLUB = demo_club(MONDAY)
SESSION = CLUB.sessions[0]
BARS = (bar("a", 20, user("P", 1, 40)),)


def view(*people: PersonToday, doses: tuple[Dose, ...] = (), with_bars: bool = False) -> AuditView:
    return AuditView(
        club=CLUB,
        session=SESSION,
        room=CLUB.room(SESSION.room),
        routine=CLUB.routines[0],
        people=people,
        doses=doses,
        bars=BARS if with_bars else (),
        run_sheet=(),
        exercises={},
    )


def loaded(name: str, last_kg: float | None = None, basis: Basis = Basis.TEST) -> Dose:
    return dose(name, load_kg=40.0, basis=basis, last_load_kg=last_kg)


COLLARS = "Collars weigh nothing that matters: no mass is stored for them."
EVERY = "No session is on record yet: every load is a first one and starts lighter."


def test_without_bars_balls_and_boxes_there_is_nothing_to_say() -> None:
    assert assumptions(view(person()), ()) == ()
    assert assumptions(view(person(), doses=(loaded("P"),)), ()) == ()


@pytest.mark.parametrize(
    ("doses", "first"),
    [
        ((loaded("P"), loaded("Q")), [EVERY]),
        ((loaded("P", 38.0), loaded("Q", 30.0)), []),
        (
            (loaded("P", 38.0), loaded("Q")),
            ["No session of this complex is on record for Q: a first load starts lighter."],
        ),
        ((loaded("P", 38.0), loaded("Q", basis=Basis.TECHNIQUE_BAR)), []),
        ((loaded("P", 38.0), replace(loaded("Q"), load_kg=None)), []),
    ],
)
def test_whose_load_is_a_first_one(doses: tuple[Dose, ...], first: list[str]) -> None:
    found = assumptions(view(person(), person("Q"), doses=doses, with_bars=True), ())
    assert list(found) == [FATIGUE_SENTENCE, *first, COLLARS]


@pytest.mark.parametrize(
    ("collars", "is_said"),
    [
        ((), True),
        ((CollarPairs("c", 1, kilograms("2.5")),), False),
        ((CollarPairs("c", 1, kilograms("2.5"), in_service=False),), True),
        ((CollarPairs("d", 1), CollarPairs("c", 1, kilograms("2.5"))), False),
    ],
)
def test_collars_without_a_mass_weigh_nothing(
    collars: tuple[CollarPairs, ...], is_said: bool
) -> None:
    made = view(person(), doses=(loaded("P", 38.0),), with_bars=True)
    kit = replace(CLUB.kit, collars=collars)
    found = assumptions(replace(made, club=replace(CLUB, kit=kit)), ())
    assert (COLLARS in found) is is_said


def test_balls_and_boxes_say_what_they_are_chosen_by() -> None:
    ball = dose("P", exercises=(planned("t", ball="b3"), planned("x")))
    box = dose("Q", exercises=(planned("j", box="f1"),))
    assert [s[:6] for s in assumptions(view(doses=(ball, box)), ())] == ["Balls:", "Boxes:"]
    assert [s[:6] for s in assumptions(view(doses=(ball,)), ())] == ["Balls:"]
    assert [s[:6] for s in assumptions(view(doses=(box,)), ())] == ["Boxes:"]


def test_an_unknown_body_mass_is_named_of_those_who_train() -> None:
    people = (person("P", kg=None), person("Q"), person("R", kg=None, status="absent"))
    assert assumptions(view(*people), ()) == (
        "No body mass is stored for P: the middle of the squad.",
    )


def test_notes_of_the_clock_name_people_and_not_their_ids() -> None:
    people = (replace(person("A1"), shown_name="Birk"),)
    notes = ("A1 joins late", "Nobody waits", "A1")
    assert assumptions(view(*people), notes) == ("Birk joins late", "Nobody waits", "Birk ")
