"""The form of a piece, read into the piece; and a piece as its form shows it."""

import re
from collections.abc import Callable

from squadwright.model.kit import Ball, Bar, Box, CollarPairs, OtherKit, PlatePair, SinglePlate
from squadwright.model.shelf import Piece, Shelf, is_in_service
from squadwright.web.forms import Form, FormView

NEW = "new"
MOST = 200
LONGEST_NOTE = 300
MOST_HEIGHTS = 12
CENTIMETRES = 100
_HEIGHT = re.compile(r"[0-9]{1,4}(\.[0-9]{1,2})?")


def read_piece(form: Form, shelf: Shelf, before: Piece | None) -> Piece:
    """The piece a form describes; its id and whether it is in service stay as they were."""
    piece = READERS[shelf](form, before)
    form.done()
    return piece


def view_of(piece: Piece) -> FormView:
    """The form of a piece as it is kept."""
    match piece:
        case Bar():
            return FormView.of(
                name=piece.name,
                mass=piece.mass,
                maximum_load=piece.maximum_load,
                length_m=piece.length_m,
                is_technique_bar=piece.is_technique_bar,
                note=piece.note,
            )
        case PlatePair():
            return FormView.of(
                stamped=piece.stamped or piece.plate,
                measured=piece.plate if piece.stamped else None,
                pairs=piece.pairs,
                is_full_size=piece.is_full_size,
                note=piece.note,
            )
        case SinglePlate():
            return FormView.of(stamped=piece.plate, count=piece.count, note=piece.note)
        case CollarPairs():
            return FormView.of(pairs=piece.pairs, pair_mass=piece.pair_mass, note=piece.note)
        case Ball():
            return FormView.of(
                mass=piece.mass,
                count=piece.count,
                bounces=piece.bounces,
                fit_for_walls=piece.fit_for_walls,
                note=piece.note,
            )
        case Box():
            return FormView.of(
                heights=", ".join(_centimetres(height) for height in piece.heights_m),
                top_width=_centimetres(piece.top_width_m),
                top_depth=_centimetres(piece.top_depth_m),
                is_foam=piece.is_foam,
                fit_for_landing=piece.fit_for_landing,
                maximum_body_mass=piece.maximum_body_mass,
                note=piece.note,
            )
        case OtherKit():
            height = None if piece.height_m is None else _centimetres(piece.height_m)
            return FormView.of(name=piece.name, count=piece.count, height=height, note=piece.note)


def empty_view(shelf: Shelf) -> FormView:
    """The form of a piece that is to be added, with what most of its kind have."""
    usual: dict[Shelf, FormView] = {
        Shelf.BARS: FormView.of(length_m=2.2),
        Shelf.PLATES: FormView.of(pairs=1),
        Shelf.SINGLE_PLATES: FormView.of(count=1),
        Shelf.COLLARS: FormView.of(pairs=1),
        Shelf.BALLS: FormView.of(count=1, bounces=True, fit_for_walls=True),
        Shelf.BOXES: FormView.of(top_width="50", top_depth="60", fit_for_landing=True),
        Shelf.OTHER: FormView.of(count=1),
    }
    return usual[shelf]


def _bar(form: Form, before: Piece | None) -> Piece:
    mass = form.mass("mass", "Mass")
    return Bar(
        id=_id(before),
        name=form.text("name", "Name"),
        mass=mass,
        maximum_load=form.maybe_mass("maximum_load", "Most that may hang on it"),
        length_m=form.number("length_m", "Length", low=0.5, high=3.0, unit="m"),
        is_technique_bar=form.flag("is_technique_bar"),
        in_service=_in_service(before),
        note=_note(form),
    )


def _plates(form: Form, before: Piece | None) -> Piece:
    stamped = form.mass("stamped", "Stamped on one plate")
    measured = form.maybe_mass("measured", "Weighed")
    return PlatePair(
        id=_id(before),
        plate=measured or stamped,
        pairs=form.whole("pairs", "Pairs", low=0, high=MOST, unit="pairs"),
        stamped=stamped if measured else None,
        is_full_size=form.flag("is_full_size"),
        in_service=_in_service(before),
        note=_note(form),
    )


def _single(form: Form, before: Piece | None) -> Piece:
    return SinglePlate(
        id=_id(before),
        plate=form.mass("stamped", "Stamped on it"),
        count=form.whole("count", "How many", low=1, high=MOST, unit="plates"),
        note=_note(form),
    )


def _collars(form: Form, before: Piece | None) -> Piece:
    return CollarPairs(
        id=_id(before),
        pairs=form.whole("pairs", "Pairs", low=0, high=MOST, unit="pairs"),
        pair_mass=form.maybe_mass("pair_mass", "Mass of a pair"),
        in_service=_in_service(before),
        note=_note(form),
    )


def _ball(form: Form, before: Piece | None) -> Piece:
    return Ball(
        id=_id(before),
        mass=form.mass("mass", "Mass"),
        count=form.whole("count", "How many", low=1, high=MOST, unit="balls"),
        bounces=form.flag("bounces"),
        fit_for_walls=form.flag("fit_for_walls"),
        in_service=_in_service(before),
        note=_note(form),
    )


def _box(form: Form, before: Piece | None) -> Piece:
    return Box(
        id=_id(before),
        heights_m=_heights(form),
        top_width_m=_metres(form, "top_width", "Top, along"),
        top_depth_m=_metres(form, "top_depth", "Top, across"),
        is_foam=form.flag("is_foam"),
        fit_for_landing=form.flag("fit_for_landing"),
        maximum_body_mass=form.maybe_mass("maximum_body_mass", "Heaviest athlete"),
        in_service=_in_service(before),
        note=_note(form),
    )


def _other(form: Form, before: Piece | None) -> Piece:
    height = form.maybe_number("height", "Height", low=0, high=1000, unit="cm")
    return OtherKit(
        id=_id(before),
        name=form.text("name", "Name"),
        count=form.whole("count", "How many", low=0, high=MOST),
        height_m=None if height is None else round(height / CENTIMETRES, 4),
        in_service=_in_service(before),
        note=_note(form),
    )


READERS: dict[Shelf, Callable[[Form, Piece | None], Piece]] = {
    Shelf.BARS: _bar,
    Shelf.PLATES: _plates,
    Shelf.SINGLE_PLATES: _single,
    Shelf.COLLARS: _collars,
    Shelf.BALLS: _ball,
    Shelf.BOXES: _box,
    Shelf.OTHER: _other,
}


def _id(before: Piece | None) -> str:
    return NEW if before is None else before.id


def _in_service(before: Piece | None) -> bool:
    return before is None or is_in_service(before)


def _note(form: Form) -> str:
    return form.text("note", "Note", is_required=False, longest=LONGEST_NOTE)


def _heights(form: Form) -> tuple[float, ...]:
    """Heights in centimetres, as "40, 50, 60"."""
    typed = [each.strip() for each in form.raw("heights").split(",")]
    is_sound = all(_HEIGHT.fullmatch(each) for each in typed) and len(typed) <= MOST_HEIGHTS
    heights = [float(each) for each in typed] if is_sound else []
    if not heights or not all(heights):
        form.refuse(
            "heights",
            "Heights",
            f"{form.raw('heights')[:40]!r} is not a list of heights",
            "Write one or more in centimetres, like 40, 50, 60",
        )
        return (0.3,)
    return tuple(dict.fromkeys(round(height / CENTIMETRES, 4) for height in heights))


def _metres(form: Form, name: str, label: str) -> float:
    return round(form.number(name, label, low=5, high=300, unit="cm") / CENTIMETRES, 4)


def _centimetres(metres: float) -> str:
    return f"{metres * CENTIMETRES:.10g}"
