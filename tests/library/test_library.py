"""The exercise library holds together."""

import pytest

from squadwright.errors import InvalidInput, NotFound
from squadwright.library import exercise, read_exercises, routine, routines

PLAIN = """
[defaults]
modality = "bodyweight"
pattern = "brace"
region = "whole"
seconds_per_repetition = 1.0
"""


def row(exercise_id: str, rest: str = "") -> str:
    return f'[[exercise]]\nid = "{exercise_id}"\nname = "{exercise_id}"\n{rest}\n'


def test_an_unknown_exercise_is_refused_with_the_nearest_names() -> None:
    with pytest.raises(NotFound, match=r"muscle-claen.*The nearest are muscle-clean"):
        exercise("muscle-claen")


def test_an_unknown_routine_is_refused_with_the_nearest_names() -> None:
    with pytest.raises(NotFound, match="The nearest are ropewalk"):
        routine("ropewark")


def test_the_demo_routines_are_in_the_library() -> None:
    assert {(r.id, r.version) for r in routines()} >= {("ropewalk", 1), ("tide-lanes", 1)}


def test_every_step_of_every_routine_names_an_exercise_of_the_library() -> None:
    steps = [s for r in routines() for b in r.blocks for s in b.steps]
    assert steps
    assert all(exercise(s.exercise).id == s.exercise for s in steps)


def test_harder_follows_from_easier() -> None:
    a, b = read_exercises([("x", PLAIN + row("a") + row("b", 'easier = ["a"]'))])
    assert (a.easier, a.harder) == ((), ("b",))
    assert (b.easier, b.harder) == (("a",), ())


def test_an_easier_version_that_does_not_exist_is_refused() -> None:
    with pytest.raises(InvalidInput, match=r"b\.easier: 'aa' is not in the library"):
        read_exercises([("x", PLAIN + row("ab") + row("b", 'easier = ["aa"]'))])


def test_easier_in_a_circle_is_refused() -> None:
    circle = row("a", 'easier = ["b"]') + row("b", 'easier = ["c"]') + row("c", 'easier = ["a"]')
    with pytest.raises(InvalidInput, match="circle"):
        read_exercises([("x", PLAIN + circle)])


def test_one_id_used_twice_is_refused() -> None:
    with pytest.raises(InvalidInput, match=r"x: exercise\[1\]: the id 'a' is used twice"):
        read_exercises([("x", PLAIN + row("a") + row("a"))])


def test_a_field_the_model_does_not_know_is_refused_with_its_place() -> None:
    with pytest.raises(InvalidInput, match=r"a: needs\.trampoline"):
        read_exercises([("x", PLAIN + row("a", "needs = { trampoline = true }"))])


def test_an_unknown_word_is_refused_with_its_place() -> None:
    with pytest.raises(InvalidInput, match=r"a: demands\.0"):
        read_exercises([("x", PLAIN + row("a", 'demands = ["levitation"]'))])


def test_text_that_is_not_toml_is_refused() -> None:
    with pytest.raises(InvalidInput, match="x: it is not TOML"):
        read_exercises([("x", "[[exercise")])


def test_needs_of_an_exercise_are_laid_over_the_defaults_of_its_file() -> None:
    text = PLAIN + "needs = { mat = true }\n" + row("a", "needs = { partner = true }")
    (a,) = read_exercises([("x", text)])
    assert a.needs.mat
    assert a.needs.partner
