"""The waves the coach has chosen for one session, in place of those the routine is written for."""

from dataclasses import replace

from squadwright.model.routine import Block, Style
from squadwright.model.session import Session


def in_chosen_waves(blocks: tuple[Block, ...], session: Session) -> tuple[Block, ...]:
    """Complexes in as many waves as the coach has chosen; more where there are too few bars."""
    if session.waves is None:
        return blocks
    return tuple(
        replace(block, waves=session.waves) if block.style is Style.COMPLEX else block
        for block in blocks
    )
