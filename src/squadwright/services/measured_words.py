"""What was measured beside the sessions in words: what it comes to, and what is usual."""

from collections.abc import Sequence
from typing import TypeVar

from squadwright.formulas.sources import find_source
from squadwright.formulas.sweat_rate import (
    REFILL,
    mass_deficit_percent,
    refill_volume,
    sweat_rate,
)
from squadwright.model.measured import (
    AroundTraining,
    EnergyDay,
    Measured,
    MorningUrine,
    PainReading,
    WatchedPain,
)
from squadwright.planning.gates.limits import Settings
from squadwright.planning.gates.measures import findings_of_energy
from squadwright.planning.gates.subject import Subject
from squadwright.words import capital, day_words, plain_number

Taken = TypeVar("Taken", AroundTraining, MorningUrine, PainReading, EnergyDay)
MOST_SHOWN = 5
USUAL_L_H = "0.5 to 2 L/h"
RATE_SOURCE, REFILL_SOURCE = "sweat_rate_page", "refill_recalled"


def training_words(each: AroundTraining) -> tuple[str, ...]:
    """What the two weighings come to: the rate, the deficit, and what is usually drunk after."""
    typed = (
        f"{day_words(each.taken_on)}: {each.before} before, {each.after} after, in "
        f"{each.hours:g} h, with {each.drunk_l:g} L drunk and {each.passed_l:g} L passed."
    )
    lines = [typed, rate_words(each)]
    return (*lines, *filter(None, (deficit_words(each),)))


def rate_words(each: AroundTraining) -> str:
    """The sweat rate, beside what is usual."""
    rate = 0.0
    if each.lost_kg > 0:
        rate = sweat_rate(
            each.before.kg,
            each.after.kg,
            each.hours,
            drunk_l=each.drunk_l,
            passed_l=each.passed_l,
        )
    return f"Sweat rate {plain_number(rate, 2)} L/h; usual is {USUAL_L_H} ({_marked(RATE_SOURCE)})."


def deficit_words(each: AroundTraining) -> str:
    """The mass that is missing after, and the range of what is usually drunk for it."""
    if each.after.exact_kg >= each.before.exact_kg:
        return ""
    missing = mass_deficit_percent(each.before.kg, each.after.kg)
    shares = (REFILL.low or 0.0, REFILL.high or 0.0)
    low, high = (refill_volume(each.before.kg, each.after.kg, share) for share in shares)
    return (
        f"{plain_number(missing, 1)} % of body mass is missing. To make it up, "
        f"{plain_number(low, 1)} to {plain_number(high, 1)} L is usual over the hours after "
        f"({_marked(REFILL_SOURCE)})."
    )


def urine_words(each: MorningUrine) -> str:
    """One reading."""
    return f"{day_words(each.taken_on)}: {each.exact_gravity:.3f}."


def watch_words(each: WatchedPain) -> str:
    """Who guides the load, since when, and what keeps the scale from being for it."""
    not_for = f" It is no case for the scale: {', '.join(each.not_for)}." if each.not_for else ""
    return (
        f"Guided by {each.author}, licence {each.licence}, since {day_words(each.taken_on)}."
        f"{not_for}"
    )


def pain_reading_words(each: PainReading) -> str:
    """What he told, with what is not told yet left out."""
    parts = [
        f"under load {each.during} of 10",
        "" if each.after is None else f"after it {each.after} of 10",
        "" if each.next_morning is None else f"the next morning {each.next_morning.value}",
        "" if each.week is None else f"from week to week {each.week.value}",
    ]
    told = ", ".join(part for part in parts if part)
    return f"{day_words(each.taken_on)}, told by {each.author}: {told}."


def energy_words(each: EnergyDay) -> str:
    """What was written down of a day: for medical staff and himself alone."""
    foods = "".join(f", {name} {grams:f} g" for name, grams in each.foods.items())
    at = "" if each.body_mass is None else f", at {each.body_mass}"
    return (
        f"{day_words(each.taken_on)}: {each.intake_kcal:g} kcal eaten, {each.exercise_kcal:g} kcal "
        f"in training, {each.fat_free} without fat{foods}{at}; {each.author} ({each.licence})."
    )


def measured_lines(measured: Measured, who: Subject, settings: Settings) -> tuple[str, ...]:
    """Everything for a sheet whose reader may see it, the newest of each kind first."""
    lines: list[str] = []
    for day in newest(measured.energy):
        lines.append(energy_words(day))
        lines += [
            f"{item.sentence.partition(': ')[2]} {item.advice} Limit {item.limit:g} {item.unit}; "
            f"{item.source}."
            for item in findings_of_energy(who, day, settings=settings)
        ]
    for pain in measured.pains:
        lines.append(f"{capital(pain.place)}: {watch_words(pain)}")
        lines += [pain_reading_words(each) for each in newest(pain.readings)]
    lines += [f"Specific gravity, {urine_words(each)}" for each in newest(measured.urine)]
    lines += [" ".join(training_words(each)) for each in newest(measured.training)]
    return tuple(lines)


def newest(entries: Sequence[Taken]) -> list[Taken]:
    """The last few, the newest first; of one day the one entered later."""
    later_first = list(reversed(entries))
    return sorted(later_first, key=lambda each: each.taken_on, reverse=True)[:MOST_SHOWN]


def _marked(key: str) -> str:
    source = find_source(key)
    return f"{source.label}, {source.provenance.value}"
