"""The audit: findings as sentences, each with value, limit, unit, source and what to do."""

from squadwright.model.plan import Finding, Severity
from squadwright.planning.audit import after, dose, events, floor, gates, people, place
from squadwright.planning.audit.view import AuditView

RULES = (
    people.not_training,
    people.restrictions_are_kept,
    people.coach_s_word_that_is_barred,
    people.bar_is_put_down,
    people.restrictions_that_ended,
    gates.what_the_gates_found,
    gates.work_in_the_first_weeks,
    gates.lifting_of_the_young,
    people.pain_at_the_door,
    people.minors,
    people.supervision,
    events.two_events_close_together,
    events.nothing_new_between_events,
    after.jumps_after_an_event,
    dose.contacts_in_session,
    dose.drops_for_the_heavy,
    dose.depth_for_the_young,
    dose.spacing_of_jump_sessions,
    dose.balance_of_regions,
    dose.guessed_loads,
    place.slot_too_short,
    place.nothing_fits,
    place.collars,
    place.floor_area,
    place.ceiling,
    floor.floor_capacity,
    floor.run_on_less_floor,
    floor.throw_line,
    floor.ceiling_over_station,
    place.hard_session_near,
    place.kit_limited,
)

_ORDER = {Severity.STOP: 0, Severity.WARNING: 1, Severity.NOTE: 2}


def audit(view: AuditView) -> tuple[Finding, ...]:
    """All findings, stops first; each rule is one function of ``RULES``."""
    found = [item for rule in RULES for item in rule(view)]
    return tuple(sorted(found, key=lambda item: _ORDER[item.severity]))
