"""Weigh-in rules as dated data, and what a reading on the scale is worth under one of them.

Class tables age. A rule says of which year it is, where it is from and whether that was read; it
counts as not confirmed for an event until the coach has looked it up with the organiser. Masses
are compared as exact decimals in the unit of the rule.
"""

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from squadwright.errors import InvalidInput, NotFound
from squadwright.formulas.sources import Provenance
from squadwright.model.field import Count, Identifier, Name, Note
from squadwright.units import Mass, MassUnit
from squadwright.words import day_words

NOT_CONFIRMED = "not confirmed for this event"
FROM_MEMORY = "from memory: an assumption to be confirmed"
NOTHING = Decimal(0)
HUNDRED = Decimal(100)


@dataclass(frozen=True)
class WeightClass:
    """One class. ``limit`` is None above the heaviest; ``lower_limit`` only where one is printed.

    The upper limit itself belongs to the class.
    """

    name: Name
    group: Name
    limit: Decimal | None
    lower_limit: Decimal | None
    source: Note
    mark: Provenance
    most_difference: Decimal | None = None
    closed_upper: bool = True


@dataclass(frozen=True)
class ClassGroup:
    """The classes of one group of people (style, sex, age), in the unit of the rule.

    ``recalled`` are those of the limits that come from memory where the others do not. At
    ``youngest_with_papers`` somebody enters only with a certificate and the parents' consent.
    """

    name: Name
    limits: tuple[Decimal, ...]
    source: Note
    mark: Provenance
    over: Decimal | None = None
    over_difference: Decimal | None = None
    lower_limits: tuple[tuple[Decimal, Decimal], ...] = ()
    most_differences: tuple[tuple[Decimal, Decimal], ...] = ()
    recalled: tuple[Decimal, ...] = ()
    youngest_with_papers: Count | None = None

    @property
    def classes(self) -> tuple[WeightClass, ...]:
        """Every class of the group, the lightest first."""
        lower = dict(self.lower_limits)
        difference = dict(self.most_differences)
        found = [
            WeightClass(
                name=str(limit),
                group=self.name,
                limit=limit,
                lower_limit=lower.get(limit),
                source=self.source,
                mark=Provenance.MEMORY if limit in self.recalled else self.mark,
                most_difference=difference.get(limit),
            )
            for limit in self.limits
        ]
        if self.over is not None:
            found.append(
                WeightClass(
                    name=f"+{self.over}",
                    group=self.name,
                    limit=None,
                    lower_limit=self.over,
                    source=self.source,
                    mark=self.mark,
                    most_difference=self.over_difference,
                )
            )
        return tuple(found)


@dataclass(frozen=True)
class WeighIn:
    """One weigh-in of a rule: the official one, a second one, a check on the day.

    ``allowance`` is in the unit of the rule, ``allowance_a_day`` for each competition day after
    the first, at most ``most_days`` times. ``attempts`` is None where the rule sets no number.
    """

    id: Identifier
    name: Name
    when: Note
    source: Note
    mark: Provenance
    allowance: Decimal = NOTHING
    allowance_reason: Note = ""
    allowance_a_day: Decimal = NOTHING
    most_days: Count = 0
    ceiling_percent: Decimal = NOTHING
    lasts_minutes: Count | None = None
    attempts: Count | None = None
    attire: Note = ""
    attire_allowance: Decimal = NOTHING
    on_missing: Note = "misses weight"
    is_second: bool = False


@dataclass(frozen=True)
class FightDay:
    """Mass on the day of the bout, in percent above the limit of the class; more than these."""

    review_above_percent: Decimal
    stop_above_percent: Decimal | None
    source: Note
    mark: Provenance


@dataclass(frozen=True)
class WeighInRule:
    """The weigh-in rule of one body, of one year."""

    id: Identifier
    body: Name
    sport: Name
    unit: MassUnit
    groups: tuple[ClassGroup, ...]
    weigh_ins: tuple[WeighIn, ...]
    rule_year: int | None = None
    effective_from: date | None = None
    effective_until: date | None = None
    recheck_from: date | None = None
    fight_day: FightDay | None = None
    notes: tuple[Note, ...] = ()
    confirmed_for: Identifier | None = None
    confirmed_by: Name | None = None
    confirmed_on: date | None = None

    def group(self, name: str) -> ClassGroup:
        """The group with a name; raises NotFound with the names there are."""
        for group in self.groups:
            if group.name == name:
                return group
        raise NotFound(
            f"{self.body} has no group {name!r}. "
            f"Give one of {'; '.join(g.name for g in self.groups)}."
        )

    def weight_class(self, group: str, name: str) -> WeightClass:
        """The class of a group by its name ("66", "+100"); raises NotFound."""
        classes = self.group(group).classes
        for found in classes:
            if found.name == name:
                return found
        raise NotFound(
            f"{self.body}, {group}, has no class {name!r}. "
            f"Give one of {', '.join(c.name for c in classes)}."
        )

    def weigh_in(self, weigh_in_id: str) -> WeighIn:
        """The weigh-in with an id; raises NotFound with the ids there are."""
        for found in self.weigh_ins:
            if found.id == weigh_in_id:
                return found
        raise NotFound(
            f"{self.body} has no weigh-in {weigh_in_id!r}. "
            f"Give one of {', '.join(w.id for w in self.weigh_ins)}."
        )

    def standing(self, event: str, day: date) -> str:
        """Whether the coach has confirmed the rule for an event, and what makes it doubtful."""
        if self.confirmed_for == event and self.confirmed_by and self.confirmed_on:
            return f"confirmed by {self.confirmed_by} on {day_words(self.confirmed_on)}"
        doubts = []
        if self.effective_from is not None and day < self.effective_from:
            doubts.append(f"in force only from {day_words(self.effective_from)}")
        if self.effective_until is not None and day > self.effective_until:
            doubts.append(f"in force only up to {day_words(self.effective_until)}")
        if self.recheck_from is not None and day >= self.recheck_from:
            doubts.append(f"the rules from {self.recheck_from.year} on were not read")
        return "; ".join((NOT_CONFIRMED, *doubts))


def confirmed(rule: WeighInRule, event: str, *, by: str, on: date) -> WeighInRule:
    """The rule as confirmed by the coach for one event; it stays unconfirmed for any other."""
    if not by.strip():
        raise InvalidInput("confirmed_by", "is empty", "Say who looked the rule up")
    return replace(rule, confirmed_for=event, confirmed_by=by.strip(), confirmed_on=on)


@dataclass(frozen=True)
class OnTheScale:
    """What a reading is worth: ``beyond`` is how much it is over (or under), in the rule's unit.

    ``limit`` is the limit of the class with every allowance; None where there is no upper one.
    """

    makes_weight: bool
    beyond: Decimal
    limit: Decimal | None
    unit: MassUnit
    sentence: Note
    consequence: Note
    source: Note
    caution: Note = ""


def limit_with_allowances(
    rule: WeighInRule, weight_class: WeightClass, weigh_in: WeighIn, *, later_days: int = 0
) -> Decimal | None:
    """The heaviest reading that makes the class, in the unit of the rule; None without a limit."""
    if later_days < 0:
        raise InvalidInput("later_days", f"is {later_days}", "Give 0 or more days")
    if weight_class.limit is None:
        return None
    days = min(later_days, weigh_in.most_days)
    return (
        weight_class.limit * (HUNDRED + weigh_in.ceiling_percent) / HUNDRED
        + weigh_in.allowance
        + weigh_in.attire_allowance
        + days * weigh_in.allowance_a_day
    )


def on_the_scale(
    rule: WeighInRule,
    weight_class: WeightClass,
    weigh_in: WeighIn,
    reading: Mass,
    *,
    later_days: int = 0,
) -> OnTheScale:
    """Judge a reading. It has to be in the unit of the rule: the official scale shows that one."""
    if reading.unit is not rule.unit:
        raise InvalidInput(
            "reading",
            f"{reading} is not in {rule.unit.value}, the unit of {rule.body}",
            f"Read the scale in {rule.unit.value}; a converted figure may fall on the wrong side",
        )
    limit = limit_with_allowances(rule, weight_class, weigh_in, later_days=later_days)
    lightest, is_heaviest = weight_class.lower_limit, weight_class.limit is None
    if lightest is not None and (
        reading.amount < lightest or (is_heaviest and reading.amount == lightest)
    ):
        return _answer(rule, weight_class, weigh_in, limit, lightest - reading.amount, "under")
    if limit is not None and (
        reading.amount > limit or (reading.amount == limit and not weight_class.closed_upper)
    ):
        return _answer(rule, weight_class, weigh_in, limit, reading.amount - limit, "over")
    return _answer(rule, weight_class, weigh_in, limit, NOTHING, "")


def papers_needed(group: ClassGroup, age: int) -> tuple[str, ...]:
    """What somebody of an age has to show to enter a group at its youngest."""
    if group.youngest_with_papers is None or age > group.youngest_with_papers:
        return ()
    if age < group.youngest_with_papers:
        raise InvalidInput(
            "age",
            f"{age} is below {group.youngest_with_papers}, the youngest of {group.name}",
            "Enter a younger group",
        )
    return ("medical certificate", "consent of the parents")


def _answer(
    rule: WeighInRule,
    weight_class: WeightClass,
    weigh_in: WeighIn,
    limit: Decimal | None,
    beyond: Decimal,
    side: str,
) -> OnTheScale:
    what = f"{rule.body}, class {weight_class.name}, {weigh_in.name}"
    unit = rule.unit.value
    if side == "over":
        sentence = f"{what}: over {limit} {unit} by {beyond} {unit}."
    elif side == "under":
        more = "more than" if weight_class.limit is None else "at least"
        sentence = f"{what}: too light, it takes {more} {weight_class.lower_limit} {unit}."
    else:
        sentence = f"{what}: makes weight."
    recalled = Provenance.MEMORY in (weight_class.mark, weigh_in.mark)
    return OnTheScale(
        makes_weight=not side,
        beyond=beyond,
        limit=limit,
        unit=rule.unit,
        sentence=sentence,
        consequence=weigh_in.on_missing if side else "",
        source=f"{weight_class.source}; {weigh_in.source}",
        caution=FROM_MEMORY if recalled else "",
    )
