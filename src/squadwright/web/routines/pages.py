"""The pages that show routines: the club's list, the shelf, one routine, the handover sheet."""

from datetime import date
from urllib.parse import quote

from squadwright.library import routines as library_routines
from squadwright.model.club import Club
from squadwright.model.plan import Severity
from squadwright.model.routine import Routine, Style
from squadwright.model.session import Session
from squadwright.planning.plan import CAUTIONS
from squadwright.services.routine_checks import LookedAt, look_at, usual_setting
from squadwright.services.routines import (
    current_routine,
    current_routines,
    sessions_to_come,
    versions_of,
)
from squadwright.web.forms import Form, FormView
from squadwright.web.routines.contexts import (
    Actions,
    HandoverPage,
    RoutineGroup,
    RoutineLine,
    RoutineList,
    RoutinePage,
    ShelfPage,
    VersionLine,
)
from squadwright.web.routines.editor import checks_of
from squadwright.web.routines.words import (
    STYLES,
    all_kits,
    block_lines,
    kit_kinds,
    routine_facts,
    style_words,
)
from squadwright.web.wording import capital, count_text, short_day_text, time_text

LEVELS = ("novice", "intermediate", "advanced")
SHELF = "/routines/shelf"


def routine_path(routine_id: str) -> str:
    """Where the page of a routine of the club is."""
    return f"/routines/routine/{quote(routine_id, safe='')}"


def list_page(club: Club | None) -> RoutineList:
    """The club's routines; without a club, the way to the shelf."""
    if club is None:
        return RoutineList("", has_club=False, routines=(), put_away=())
    lines = [(routine, _club_line(club, routine)) for routine in current_routines(club)]
    shown = tuple(line for routine, line in lines if not routine.is_put_away)
    return RoutineList(
        line=f"{count_text(len(shown), 'routine')} of {club.name}.",
        has_club=True,
        routines=shown,
        put_away=tuple(line for routine, line in lines if routine.is_put_away),
    )


def _club_line(club: Club, routine: Routine) -> RoutineLine:
    used = [s for _, sessions in versions_of(club, routine.id) for s in sessions]
    note = f"Version {routine.version}" if routine.version > 1 else ""
    if used:
        last = max(used, key=lambda s: (s.held_on, s.starts_at))
        said = f"in {count_text(len(used), 'session')}, the last on {short_day_text(last.held_on)}"
        note = f"{note}, {said}" if note else capital(said)
    return RoutineLine(
        name=routine.name,
        path=routine_path(routine.id),
        aim=routine.aim,
        facts=f"{style_words(routine).capitalize()}. {routine_facts(routine)}.",
        fits=routine.fits,
        note=f"{note}." if note else "",
    )


def shelf_page(form: Form, *, has_club: bool) -> ShelfPage:
    """Routines of the shelf, narrowed down by level, kit and words of the aim."""
    level, kit, words = form.raw("level"), form.raw("kit"), form.raw("words").casefold()
    found = [
        routine
        for routine in library_routines()
        if level in ("", routine.level)
        and (not kit or kit in kit_kinds(routine))
        and all(word in _searched(routine) for word in words.split())
    ]
    return ShelfPage(
        line=f"{len(found)} of {count_text(len(library_routines()), 'routine')}. "
        "Take a copy into the club, or build on one.",
        chosen=FormView.of(level=level, kit=kit, words=form.raw("words")),
        levels=(("", "any level"), *((each, each) for each in LEVELS)),
        kits=(("", "any kit"), *((each, each) for each in all_kits())),
        groups=_groups(found, has_club=has_club),
    )


def _searched(routine: Routine) -> str:
    return f"{routine.name} {routine.aim} {' '.join(routine.fits)}".casefold()


def _groups(routines: list[Routine], *, has_club: bool) -> tuple[RoutineGroup, ...]:
    def first(routine: Routine) -> Style:
        return routine.blocks[0].style

    groups = [
        RoutineGroup(
            words.partition(":")[0],
            tuple(_shelf_line(r, has_club=has_club) for r in routines if first(r) is style),
        )
        for style, words in STYLES.items()
    ]
    return tuple(group for group in groups if group.lines)


def _shelf_line(routine: Routine, *, has_club: bool) -> RoutineLine:
    path = f"{SHELF}/{quote(routine.id)}"
    return RoutineLine(
        name=routine.name,
        path=path,
        aim=routine.aim,
        facts=f"{routine_facts(routine)}.",
        fits=routine.fits,
        copy_path=f"{path}/copy" if has_club else "",
    )


def shelf_routine_page(club: Club | None, routine: Routine) -> RoutinePage:
    """One routine of the shelf, looked at in the club's store and room."""
    path = f"{SHELF}/{quote(routine.id)}"
    actions = Actions(
        take=f"{path}/copy" if club else "",
        build=f"/routines/new?shelf={quote(routine.id)}" if club else "",
    )
    return _page(club or Club(name="Club"), routine, actions, back=SHELF, back_words="The shelf")


def club_routine_page(
    club: Club, routine_id: str, version: int | None, *, today: date
) -> RoutinePage:
    """One routine of the club, in its newest version or the one asked for."""
    now = current_routine(club, routine_id)
    routine = now if version is None else club.routine(routine_id, version)
    path = routine_path(routine_id)
    is_old = routine.version != now.version
    actions = Actions(
        edit="" if is_old or now.is_put_away else f"{path}/edit",
        sheet="" if is_old else f"{path}/sheet",
        copy=f"{path}/copy",
        file="" if is_old else f"{path}/file",
        name="" if is_old or now.is_put_away else f"{path}/name",
        remove="" if is_old or now.is_put_away else f"{path}/remove",
        bring_back=f"{path}/bring-back" if now.is_put_away and not is_old else "",
        build=f"/routines/new?routine={quote(routine_id)}",
    )
    coming = sessions_to_come(club, now, today=today)
    return _page(
        club,
        routine,
        actions,
        back="/routines",
        back_words="All routines",
        versions=tuple(
            _version_line(r, sessions, path, is_shown=r.version == routine.version, newest=now)
            for r, sessions in versions_of(club, routine_id)
        ),
        coming=tuple(session_words(s) for s in coming),
        move_path=f"{path}/sessions",
        old=f"This is version {routine.version}. The newest is version {now.version}."
        if is_old
        else "",
    )


def _version_line(
    routine: Routine, sessions: tuple[Session, ...], path: str, *, is_shown: bool, newest: Routine
) -> VersionLine:
    is_newest = routine.version == newest.version
    return VersionLine(
        words=f"Version {routine.version}{', the newest' if is_newest else ''}",
        path=path if is_newest else f"{path}?version={routine.version}",
        is_shown=is_shown,
        sessions=tuple((session_words(s), f"/today/{quote(s.id)}") for s in sessions),
    )


def session_words(session: Session) -> str:
    """A session in few words: "Mon 2 Mar, 18:00: Monday barbell"."""
    when = f"{short_day_text(session.held_on)}, {time_text(session.starts_at)}"
    return f"{when}: {session.name}"


def _page(
    club: Club,
    routine: Routine,
    actions: Actions,
    *,
    back: str,
    back_words: str,
    versions: tuple[VersionLine, ...] = (),
    coming: tuple[str, ...] = (),
    move_path: str = "",
    old: str = "",
) -> RoutinePage:
    looked, where = _looked_at(club, routine)
    return RoutinePage(
        title=routine.name,
        line=f"{capital(routine.aim)}.",
        facts=f"{style_words(routine).capitalize()}. {routine_facts(routine)}.",
        fits=routine.fits,
        blocks=block_lines(routine),
        cautions=routine.cautions,
        note=routine.note,
        looked_at=where,
        checks=checks_of(looked, routine),
        versions=versions,
        coming=coming,
        move_path=move_path,
        actions=actions,
        back=back,
        back_words=back_words,
        old=old,
    )


def _looked_at(club: Club, routine: Routine) -> tuple[LookedAt, str]:
    setting = usual_setting(club, routine)
    looked = look_at(club, routine, setting)
    room = f" in {looked.room.name}" if looked.room else ""
    like = f", as in {setting.like.name}" if setting.like else ""
    return looked, f"For {count_text(setting.athletes, 'athlete')}{room}{like}."


def handover_page(club: Club, routine_id: str, *, today: date) -> HandoverPage:
    """The sheet for whoever runs it while the coach is away."""
    routine = current_routine(club, routine_id)
    looked, where = _looked_at(club, routine)
    said = {found.rule: found for found in looked.findings}
    card = club.emergency
    pairs = (
        ("Address", card.address),
        ("Way in", card.access),
        ("Defibrillator", card.defibrillator),
        ("Call", "; ".join(card.contacts)),
    )
    flow = [
        f.sentence
        for f in looked.findings
        if f.rule == "bar flow" and f.severity is not Severity.NOTE
    ]
    return HandoverPage(
        title=routine.name,
        line=f"{capital(routine.aim)}. {where}",
        facts=f"Warm-up {routine.warm_up_s // 60} min, rehearsal {routine.rehearsal_s // 60} min.",
        blocks=block_lines(routine),
        kit=said["kit"].sentence if "kit" in said else "",
        length=said["length"].sentence if "length" in said else "",
        cautions=(*flow, *routine.cautions, *CAUTIONS),
        emergency=tuple((name, words) for name, words in pairs if words),
        sessions=tuple(
            (session_words(s), f"/today/{quote(s.id)}")
            for s in club.sessions
            if s.routine == routine_id and s.held_on >= today
        ),
        back=routine_path(routine_id),
    )
