"""Who stands at which bar in which wave, those with a stick included."""

from collections.abc import Mapping

from squadwright.planning.bar_sharing import Sharing
from squadwright.planning.rounds import Rounds
from squadwright.planning.run_sheet.blocks import BarUser

STICK = "stick "


def bar_users(
    sharing: Sharing, rounds: Mapping[str, Rounds], waves: int, turns: Mapping[str, str]
) -> tuple[BarUser, ...]:
    """Everybody with his bar and wave.

    A stick is used beside the bar of the own group, in a wave in which nobody lifts there, or once
    he is done whose place is taken; else it counts as a bar of its own.
    """
    group_of = {a: g.name for g in sharing.groups for a in g.athletes}
    users = [
        BarUser(
            user.athlete, group_of[user.athlete], bar.bar, user.wave, rounds[user.athlete].rounds
        )
        for bar in sharing.bars
        for user in bar.wave_users
    ]
    sticks = 0
    for athlete in sharing.with_stick:
        if athlete in turns:
            continue
        group = group_of[athlete]
        taken: dict[str, set[int]] = {}
        for user in users:
            if user.group == group and not user.bar.startswith(STICK):
                taken.setdefault(user.bar, set()).add(user.wave)
        free = [(b, w) for b, t in taken.items() for w in range(1, waves + 1) if w not in t]
        bar, wave = free[0] if free else (f"{STICK}{sticks // waves + 1}", sticks % waves + 1)
        sticks += not free
        users.append(BarUser(athlete, group, bar, wave, rounds[athlete].rounds))
    place_of = {user.athlete: user for user in users}
    for guest, host in turns.items():
        own, place = rounds[guest], place_of[host]
        group = group_of[guest]
        users.append(BarUser(guest, group, place.bar, place.wave, own.rounds, own.first_round))
    return tuple(users)
