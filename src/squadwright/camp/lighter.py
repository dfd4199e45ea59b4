"""The lighter version of a routine: no jumps of the legs, throws kept, half the rounds."""

from dataclasses import dataclass, replace

from squadwright.camp.routine_work import is_jump
from squadwright.library import exercise
from squadwright.model.routine import Block, Routine

ENDING = "lighter"
LEAST_ROUNDS = 1


@dataclass(frozen=True)
class Lighter:
    """A lighter routine with what is less in it, in words; None where nothing is left of it."""

    routine: Routine | None
    dropped: tuple[str, ...]
    kept_throws: tuple[str, ...]
    rounds: tuple[tuple[int, int], ...]

    @property
    def words(self) -> str:
        """What is less, as one sentence."""
        said = []
        if self.dropped:
            said.append(f"no jumps ({', '.join(self.dropped)})")
        if self.kept_throws:
            said.append("throws as written")
        said += [f"{after} rounds instead of {before}" for before, after in self.rounds]
        return "; ".join(said)


def lighter(routine: Routine) -> Lighter:
    """Halve the rounds and drop the jumps; upper-body work and throws stay as they are."""
    blocks: list[Block] = []
    dropped: list[str] = []
    throws: list[str] = []
    rounds: list[tuple[int, int]] = []
    for block in routine.blocks:
        steps = []
        for step in block.steps:
            known = exercise(step.exercise)
            if is_jump(known):
                dropped.append(known.name)
                continue
            if known.throws_per_repetition:
                throws.append(known.name)
            steps.append(step)
        if not steps:
            continue
        fewer = max(LEAST_ROUNDS, block.rounds // 2)
        if fewer < block.rounds:
            rounds.append((block.rounds, fewer))
        blocks.append(replace(block, steps=tuple(steps), rounds=fewer))
    if not blocks:
        return Lighter(None, tuple(dropped), (), ())
    made = replace(
        routine,
        id=f"{routine.id[:40]}-{routine.version}-{ENDING}",
        version=1,
        name=f"{routine.name}, {ENDING}",
        blocks=tuple(blocks),
    )
    return Lighter(made, tuple(dropped), tuple(throws), tuple(rounds))
