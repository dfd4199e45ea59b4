"""One more than there are places at the bars: a learner takes the place of one who is done.

Whoever tapers or has fewer rounds for another reason leaves his place before the last round; a
guest, who has few rounds and watches first, goes on there with a stick. So nobody loses a round
to a wave more. Common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import replace

from squadwright.model.session import Settings
from squadwright.planning.attendance import PersonToday
from squadwright.planning.rounds import Rounds

HERE = "present"


def turns_after(
    people: Mapping[str, PersonToday],
    rounds: Mapping[str, Rounds],
    settings: Settings,
    *,
    places: int,
    total: int,
) -> dict[str, str]:
    """Who takes whose place later on, so that the places suffice; empty where that cannot be.

    Parameters
    ----------
    places : users the bars have in all waves together.
    total : rounds of the block.
    """
    lifting = {a for a, own in rounds.items() if own.rounds > 0}
    missing = len(lifting) - places
    if missing < 1:
        return {}
    on_time = sorted(a for a in lifting if people[a].status == HERE)
    guests = [a for a in on_time if people[a].is_guest and not _is_bound(a, settings)]
    hosts = [a for a in on_time if not people[a].is_guest]
    hosts.sort(key=lambda a: (rounds[a].rounds, a))
    found: dict[str, str] = {}
    for guest in guests:
        host = next(
            (
                a
                for a in hosts
                if a not in found.values()
                and rounds[a].rounds + rounds[guest].rounds <= total
                and not _are_kept_apart(a, guest, settings)
            ),
            None,
        )
        if host is not None and len(found) < missing:
            found[guest] = host
    return found if len(found) == missing else {}


def rounds_in_turn(rounds: Mapping[str, Rounds], turns: Mapping[str, str]) -> dict[str, Rounds]:
    """The rounds, with those of each guest after the last one of whose place he takes.

    The reason names nobody else: it stands on his own sheet as well.
    """
    changed = dict(rounds)
    for guest, host in turns.items():
        done = rounds[host].rounds
        place = f"a place at the bars is free after round {done}"
        reason = "; ".join(part for part in (rounds[guest].reason, place) if part)
        changed[guest] = replace(rounds[guest], first_round=done + 1, reason=reason)
    return changed


def _is_bound(athlete: str, settings: Settings) -> bool:
    return any(athlete in pair for pair in settings.required_pairs)


def _are_kept_apart(one: str, other: str, settings: Settings) -> bool:
    return (one, other) in settings.banned_pairs or (other, one) in settings.banned_pairs
