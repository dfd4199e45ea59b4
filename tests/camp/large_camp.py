"""Large camps: the demo club's people over and over, with events spread over a year."""

from dataclasses import replace
from datetime import timedelta
from random import Random

from camp.camp_cases import MONDAY
from squadwright.camp.of_club import CampInputs, camp_of_club
from squadwright.camp.problem import CampProblem
from squadwright.demo import demo_club
from squadwright.model.athlete import Event, Priority
from squadwright.model.club import Club


def large_club(people: int, weeks: int, seed: int = 1) -> Club:
    """So many athletes of the demo club's squads, each with an event every seven weeks or so."""
    club, random = demo_club(MONDAY), Random(seed)
    athletes = []
    for number in range(people):
        pattern = club.athletes[number % len(club.athletes)]
        days, day = [], random.randrange(10, 60)
        while day < 7 * weeks:
            days.append(day)
            day += random.randrange(30, 70)
        events = tuple(
            Event(
                f"P{number}-{day}",
                f"Event {day}",
                MONDAY + timedelta(days=day),
                Priority.A if random.random() < 0.5 else Priority.B,
            )
            for day in days
        )
        athletes.append(
            replace(
                pattern,
                id=f"P{number}",
                name=f"Person {number}",
                events=events,
                restrictions=(),
                clearances=(),
            )
        )
    return replace(club, athletes=tuple(athletes), sessions=(), closures=(), travel=())


def large_camp(people: int, weeks: int, draws: int = 200) -> CampProblem:
    """Its camp."""
    return camp_of_club(
        large_club(people, weeks), MONDAY, weeks=weeks, inputs=CampInputs(draws=draws)
    )
