"""The reference page of the safety gates, written from their limits: ``python -m`` prints it."""

from squadwright.formulas.sources import find_source
from squadwright.planning.gates import mass, means
from squadwright.planning.gates.concussion import CLEARANCE_FROM_STEP, STEPS
from squadwright.planning.gates.limits import LIMITS, Limit, Stricter
from squadwright.planning.gates.means import KINDS
from squadwright.planning.gates.suspension import TERMS

NEVER_LIFTED = (means.RULE, mass.MINOR)
"""Rules of the sport or of age: nothing asks whether a clearance lifts them."""

_INTRODUCTION = """\
# Safety gates

This page is generated from the program; change its limits and write it again with `make docs`.

A gate records, warns and stops. It never diagnoses, never clears anybody, and never says how mass
is lost. Medical staff, local rules and licensed practice come first.

A limit marked `memory` is recalled or our own choice and not confirmed: an assumption. A coach may
set any limit stricter, never looser. A value exactly at a limit is still inside it unless the row
says otherwise. What a gate has stopped is lifted by a written entry of medical staff with name and
licence, and by nobody else; a plan with a prohibited means, and any plan to lose mass under 18, by
nobody at all.
"""

_BORDERS = """
Fever counts from its limit on. The first two rows of heat for minors begin at their limit. Energy
and foods are adequate at their limit.
"""


def page() -> str:
    """The whole page as Markdown."""
    limits = "\n".join(_limit_row(limit) for limit in LIMITS.values())
    steps = "\n".join(f"| {s.number} | {s.allowed} |" for s in STEPS)
    kinds = "\n".join(
        f"| {kind} | {find_source(source).label} | {find_source(source).provenance.value} |"
        for kind, source, _ in KINDS
    )
    terms = "\n".join(
        f"| {t.issuer} | {t.reason} | {_days(t.least_days, t.most_days)} "
        f"| {find_source(t.source_key).provenance.value} |"
        for t in TERMS
    )
    keys = sorted(
        {limit.source_key for limit in LIMITS.values()}
        | {source for _, source, _ in KINDS}
        | {term.source_key for term in TERMS}
    )
    sources = "\n".join(f"- {find_source(key).citation} {find_source(key).note}" for key in keys)
    return (
        f"{_INTRODUCTION}\n## Limits\n\n"
        "| Limit | Value | Unit | Stricter is | Source | Mark |\n"
        f"| --- | --- | --- | --- | --- | --- |\n{limits}\n{_BORDERS}\n"
        "## Return after a concussion\n\n"
        "At least 24 hours on each step, counted as hours that passed. A written clearance by "
        f"medical staff, given after the last symptoms, is needed from step {CLEARANCE_FROM_STEP} "
        "on. Symptoms from there on lead back to step 3, and the hours begin again.\n\n"
        f"| Step | What may be done |\n| --- | --- |\n{steps}\n\n"
        "## Prohibited means\n\n"
        "A plan to lose mass that names one is refused, told to the medical contact (and to the "
        "guardian of a minor) and logged. Kinds only are listed here.\n\n"
        f"| Kind | Source | Mark |\n| --- | --- | --- |\n{kinds}\n\n"
        "## Suspensions\n\n"
        "The latest day counts, from the day after the event. One that is open until cleared never "
        "runs out by date.\n\n"
        f"| Where | After | Days | Mark |\n| --- | --- | --- | --- |\n{terms}\n\n"
        f"## Never lifted\n\n{'; '.join(NEVER_LIFTED).capitalize()}.\n\n"
        f"## Sources\n\n{sources}\n"
    )


def _limit_row(limit: Limit) -> str:
    source = find_source(limit.source_key)
    side = "lower" if limit.stricter is Stricter.LOWER else "higher"
    return (
        f"| {limit.name} | {limit.value} | {limit.unit} | {side} | {source.label} "
        f"| {source.provenance.value} |"
    )


def _days(least: int, most: int | None) -> str:
    if most is None:
        return f"{least} at least"
    if least == most:
        return str(least)
    return f"up to {most}" if least == 0 else f"{least} to {most}"


if __name__ == "__main__":
    print(page(), end="")
