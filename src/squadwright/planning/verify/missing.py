"""What is not there for a session: the re-check counts it off the store by itself."""

from collections import Counter
from dataclasses import replace

from squadwright.model.club import Club
from squadwright.model.session import Session


def club_without_the_missing(club: Club, session: Session) -> Club:
    """The club with the store as the session finds it."""
    gone = Counter({each.piece: 0 for each in session.missing})
    for each in session.missing:
        gone[each.piece] += each.count
    kit = club.kit
    found = replace(
        kit,
        bars=tuple(bar for bar in kit.bars if gone[bar.id] == 0),
        plates=tuple(replace(p, pairs=max(p.pairs - gone[p.id], 0)) for p in kit.plates),
        collars=tuple(replace(c, pairs=max(c.pairs - gone[c.id], 0)) for c in kit.collars),
        balls=tuple(
            replace(ball, count=ball.count - gone[ball.id])
            for ball in kit.balls
            if ball.count > gone[ball.id]
        ),
        boxes=tuple(box for box in kit.boxes if gone[box.id] == 0),
    )
    return replace(club, kit=found)
