"""A camp looked at again, rule by rule and day by day, by other code than the one that made it.

Nothing of the solver is used, nor the limits it works with: each rule is read from the problem
once more, and what breaks it is told in a sentence.
"""

from collections.abc import Callable, Iterable, Iterator
from math import ceil, floor

from squadwright.camp.problem import CampAthlete, CampEvent, CampProblem, CampSolution

NEARLY = 1e-9
VALUE_TOLERANCE = 1e-6


def breaches(
    problem: CampProblem,
    solution: CampSolution,
    at: Callable[[float], None] = lambda _share: None,
) -> list[str]:
    """Each rule that a camp breaks, in a sentence; nothing where it keeps them all.

    ``at`` is told what share of the athletes has been looked at.
    """
    found = list(_shape(problem, solution))
    if found:
        return found
    found.extend(_squad(problem, solution))
    for number, athlete in enumerate(problem.athletes):
        found.extend(_Recheck(problem, solution, number, athlete).all())
        at((number + 1) / len(problem.athletes))
    told = _value(problem, solution)
    if abs(told - solution.value) > VALUE_TOLERANCE * max(1.0, abs(told)):
        found.append(f"the value is {told:.6f}, not {solution.value:.6f}")
    if solution.bound < told - VALUE_TOLERANCE * max(1.0, abs(told)):
        found.append(f"the bound {solution.bound:.6f} is below the value {told:.6f}")
    return found


def _shape(problem: CampProblem, solution: CampSolution) -> Iterator[str]:
    if len(solution.squad_rounds) != len(problem.sessions):
        yield "the squad has not one number of rounds a session"
    if len(solution.rounds) != len(problem.athletes):
        yield "there is not one line an athlete"
    for athlete, line in zip(problem.athletes, solution.rounds, strict=False):
        if len(line) != len(problem.sessions):
            yield f"{athlete.name}: not one entry a session"
            continue
        for session, rounds in zip(problem.sessions, line, strict=True):
            if (rounds is not None) != (session.id in athlete.sessions):
                yield f"{athlete.name}, {session.id}: rounds where nobody is expected, or none"
            elif rounds is not None and (rounds != int(rounds) or rounds < 0):
                yield f"{athlete.name}, {session.id}: {rounds} is no number of rounds"


def _squad(problem: CampProblem, solution: CampSolution) -> Iterator[str]:
    for session, rounds in zip(problem.sessions, solution.squad_rounds, strict=True):
        low = 1 if session.is_shared else 0
        high = session.most_rounds if session.is_shared else 0
        if not low <= rounds <= high:
            yield f"{session.id}: {rounds} rounds of the squad are not {low} to {high}"


def _value(problem: CampProblem, solution: CampSolution) -> float:
    """The value, summed draw by draw and round by round."""
    total = 0.0
    for athlete, line in zip(problem.athletes, solution.rounds, strict=True):
        last, off = max((e.day for e in athlete.aims), default=0), _off_days(problem, athlete)
        each = athlete.response.influence(range(last + 1)).mean(axis=0)
        for number, session in enumerate(problem.sessions):
            rounds = line[number]
            if rounds is None:
                continue
            worth = sum(e.weight * each[max(e.day - session.day, 0)] for e in athlete.aims)
            total += rounds * session.load_per_round * worth
            if session.is_shared and session.day not in off:
                apart = abs(rounds - solution.squad_rounds[number])
                total -= problem.rules.change_cost * apart
    return float(total)


def _rest_after(problem: CampProblem, athlete: CampAthlete, event: CampEvent) -> int:
    gaps = [e.day - event.day for e in athlete.events if e.day > event.day]
    is_close = bool(gaps) and min(gaps) <= problem.rules.close_d
    rest = problem.rules.close_recovery_d if is_close else problem.rules.recovery_d
    if event.bouts >= problem.rules.many_bouts:
        rest += problem.rules.many_bouts_d
    return rest


def _off_days(problem: CampProblem, athlete: CampAthlete) -> set[int]:
    found = {each.day for each in athlete.off}
    for event in athlete.events:
        found |= set(range(event.day, event.day + _rest_after(problem, athlete, event) + 1))
    return found


class _Recheck:
    """One athlete's line against the rules."""

    def __init__(
        self, problem: CampProblem, solution: CampSolution, number: int, athlete: CampAthlete
    ) -> None:
        self.problem, self.rules, self.athlete = problem, problem.rules, athlete
        self.squad = solution.squad_rounds
        self.off = _off_days(problem, athlete)
        self.line = {n: r for n, r in enumerate(solution.rounds[number]) if r is not None}
        self.at = {n: r for n, r in self.line.items() if problem.sessions[n].day not in self.off}
        self.shared = {n for n in self.at if problem.sessions[n].is_shared}
        self.tapered = {n: e for n in self.at if (e := self._taper_of(n)) is not None}
        self.returning = {n: w for n in self.at if (w := self._return_week(n)) is not None}
        self.by_week: dict[int, list[int]] = {}
        for n in self.at:
            self.by_week.setdefault(problem.sessions[n].day // 7, []).append(n)
        self.with_squad = sorted({problem.sessions[n].day // 7 for n in self.shared})
        self.fewest: dict[int, int] = {}

    def all(self) -> Iterator[str]:
        """Every breach of this athlete."""
        yield from self._days_off()
        yield from self._sessions()
        yield from self._tapers()
        yield from self._returns()
        yield from self._weeks()

    def _taper_of(self, number: int) -> CampEvent | None:
        day = self.problem.sessions[number].day
        ahead = sorted((e for e in self.athlete.events if e.day > day), key=lambda e: e.day)
        if not ahead:
            return None
        next_event = ahead[0]
        length = self.rules.main_taper_d if next_event.is_main else self.rules.other_taper_d
        return next_event if next_event.day - day <= length else None

    def _return_week(self, number: int) -> int | None:
        back = self.athlete.returns_on
        if back is None or self.problem.sessions[number].day < back:
            return None
        week = (self.problem.sessions[number].day - back) // 7
        return week if week < len(self.rules.return_shares) else None

    def _says(self, number: int, words: str) -> str:
        return f"{self.athlete.name}, {self.problem.sessions[number].id}: {words}"

    def _usual(self, numbers: Iterable[int]) -> int:
        return sum(self.problem.sessions[n].usual_rounds for n in numbers)

    def _days_off(self) -> Iterator[str]:
        for number, rounds in self.line.items():
            if rounds and self.problem.sessions[number].day in self.off:
                yield self._says(number, f"{rounds} rounds on a day off")

    def _most(self, number: int) -> int:
        session = self.problem.sessions[number]
        most = min(session.most_rounds, self.athlete.most_rounds or session.most_rounds)
        if number in self.tapered or number in self.returning:
            most = min(most, session.usual_rounds)
        ahead = [e.day - session.day for e in self.athlete.events if e.day > session.day]
        if ahead and min(ahead) <= self.rules.quiet_d:
            most = min(most, self.rules.quiet_rounds)
        return most

    def _sessions(self) -> Iterator[str]:
        for number, rounds in self.at.items():
            session = self.problem.sessions[number]
            most = self._most(number)
            if not session.is_shared:
                is_eased = number in self.tapered or number in self.returning
                most = 0 if is_eased or not self.athlete.may_do_more else session.most_rounds
            elif rounds < 1:
                yield self._says(number, "a session is dropped, and frequency is kept")
            if rounds > most:
                yield self._says(number, f"{rounds} rounds, more than {most}")
            if session.is_shared:
                yield from self._from_squad(number, rounds, most)

    def _from_squad(self, number: int, rounds: int, most: int) -> Iterator[str]:
        squad, session = self.squad[number], self.problem.sessions[number]
        is_own = number in self.tapered or number in self.returning or most < session.usual_rounds
        if rounds - squad > (0 if is_own else self.rules.most_more):
            yield self._says(number, f"{rounds} rounds, and the squad does {squad}")
        is_free = is_own or self._is_rebuild(session.day // 7)
        if not is_free and squad - rounds > self.rules.most_fewer:
            yield self._says(number, f"{rounds} rounds, and the squad does {squad}")

    def _is_rebuild(self, week: int) -> bool:
        """Whether the rise from the fewest rounds of the week before ends below the squad's."""
        if self._fewest_before(week) is None:
            return False
        squad = 0
        for number in self._week(week):
            if number in self.shared:
                squad += max(1, self._usual([number]) - self.rules.most_fewer)
        return self._most_from_fewest(week) < squad

    def _fewest(self, week: int) -> int:
        """The fewest rounds a week may hold."""
        if week not in self.fewest:
            self.fewest[week] = self._fewest_anew(week)
        return self.fewest[week]

    def _fewest_anew(self, week: int) -> int:
        shared = [n for n in self._week(week) if n in self.shared]
        if any(n in self.tapered or n in self.returning for n in shared):
            return len(shared)
        wanted = ceil(self.rules.week_floor * self._usual(shared) - NEARLY)
        wanted = min(wanted, sum(max(1, self._most(n)) for n in shared))
        if self._fewest_before(week) is not None:
            wanted = min(wanted, self._most_from_fewest(week))
        return max(len(shared), wanted)

    def _week(self, week: int) -> list[int]:
        return self.by_week.get(week, [])

    def _earlier(self, week: int) -> int | None:
        """The last week before this one in which he has any session of the squad."""
        before = [each for each in self.with_squad if each < week]
        return before[-1] if before else None

    def _fewest_before(self, week: int) -> int | None:
        """The fewest rounds of the week it rises from: before the camp, those that were done."""
        earlier = self._earlier(week)
        if earlier is not None:
            return self._fewest(earlier)
        return None if self.athlete.before is None else self.athlete.before.rounds

    def _rise(self, week: int) -> int:
        """How far a week may lie above the one before: more where it has more sessions."""
        sessions = sum(n in self.shared for n in self._week(week))
        return max(self.rules.most_rise, sessions - (self._fewest_before(week) or 0))

    def _most_from_fewest(self, week: int) -> int:
        return (self._fewest_before(week) or 0) + self._rise(week)

    def _reach(self, inside: list[int]) -> int:
        """Rounds that some sessions can hold whatever was done before them."""
        total = 0
        for week in sorted({self.problem.sessions[n].day // 7 for n in inside}):
            shared = [n for n in self._week(week) if n in self.shared]
            mine = [n for n in shared if n in inside]
            most = sum(max(1, self._most(n)) for n in mine)
            if self._fewest_before(week) is not None:
                left = self._most_from_fewest(week) - (len(shared) - len(mine))
                most = min(most, max(len(mine), left))
            total += most
        return total

    def _tapers(self) -> Iterator[str]:
        for event in self.athlete.events:
            inside = [n for n in self.shared if self.tapered.get(n) == event]
            if not inside:
                continue
            done, usual = sum(self.at[n] for n in inside), self._usual(inside)
            least = len(inside)
            if not any(n in self.returning for n in inside):
                wanted = ceil((1 - self.rules.most_cut) * usual - NEARLY)
                least = max(least, min(wanted, self._reach(inside)))
            share = 1 - self.rules.least_cut if event.is_main else 1.0
            most = max(least, floor(share * usual + NEARLY))
            if not least <= done <= most:
                yield (
                    f"{self.athlete.name}, taper for {event.name}: {done} of {usual} rounds, "
                    f"not {least} to {most}"
                )

    def _returns(self) -> Iterator[str]:
        for week, share in enumerate(self.rules.return_shares):
            inside = [n for n in self.shared if self.returning.get(n) == week]
            most = max(len(inside), floor(share * self._usual(inside) + NEARLY))
            if sum(self.at[n] for n in inside) > most:
                yield f"{self.athlete.name}, week {week + 1} back: more than {most} rounds"

    def _done_before(self, week: int) -> int | None:
        earlier = self._earlier(week)
        if earlier is not None:
            return sum(self.at[n] for n in self._week(earlier))
        return None if self.athlete.before is None else self.athlete.before.rounds

    def _weeks(self) -> Iterator[str]:
        for week in range(-(-self.problem.days // 7)):
            inside = self._week(week)
            shared = [n for n in inside if n in self.shared]
            done, usual = sum(self.at[n] for n in inside), self._usual(shared)
            extra = done - sum(self.at[n] for n in shared)
            where = f"{self.athlete.name}, week {week + 1}"
            if extra > self.rules.most_extra_in_a_week:
                yield f"{where}: {extra} extra rounds"
            if not shared:
                continue
            fewest = self._fewest(week)
            if done > max(fewest, usual + self.rules.most_over_in_a_week):
                yield f"{where}: {done} rounds, usual are {usual}"
            before = self._done_before(week)
            if before is not None and done > before + self._rise(week):
                yield f"{where}: {done} rounds after {before}"
            if done < fewest:
                yield f"{where}: {done} rounds, at least {fewest} of {usual} are asked"
