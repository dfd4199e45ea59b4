"""What the plates can do, in words: how near they come, and what changed since another plan."""

from squadwright.model.marks import bar_number
from squadwright.model.plan import KitBound, Plan
from squadwright.planning.kit.measures import share_text
from squadwright.words import listed


def tolerance_words(bound: KitBound) -> tuple[str, str]:
    """The tightest tolerance that works, and what that means and rests on."""
    if bound.largest_shortfall_fraction == 0:
        return "Every load is exactly the one wanted", ""
    said = f"Tightest tolerance that works: {share_text(bound.largest_shortfall_fraction)}"
    meaning = "Nobody is further below the load wanted, and nobody above it."
    if bound.largest_shortfall_bound >= bound.largest_shortfall_fraction - 1e-9:
        return said, f"{meaning} It is proven that no plates on these bars come nearer."
    least = share_text(bound.largest_shortfall_bound)
    return said, f"{meaning} It is proven that {least} cannot be beaten; between, it is open."


def kit_words(before: Plan, after: Plan) -> str:
    """How the tolerance moved, and the bars on which other plates lie for the same load."""
    said = []
    old, new = before.kit_bound, after.kit_bound
    if old is not None and new is not None:
        was, now = (share_text(b.largest_shortfall_fraction) for b in (old, new))
        if was != now:
            said.append(f"The tightest tolerance is {now} (was {was}).")
    other = _other_plates(before, after)
    if other:
        lie = "lie on bar" if len(other) == 1 else "lie on bars"
        said.append(f"Other plates {lie} {listed(other)}, for the same load.")
    return " ".join(said)


def _other_plates(before: Plan, after: Plan) -> list[str]:
    """Numbers of the bars on which somebody has his old load with other plates."""
    then = {(user.athlete, bar.block): user for bar in before.bars for user in bar.wave_users}
    found = []
    for index, bar in enumerate(after.bars):
        for user in bar.wave_users:
            old = then.get((user.athlete, bar.block))
            if old and old.load_kg == user.load_kg and old.per_side != user.per_side:
                found.append(str(bar_number(index)))
                break
    return found
