"""Draw the pictures of docs/pictures/ from the demo club, on a fixed Monday so that they keep."""

from datetime import date
from pathlib import Path

from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION
from squadwright.planning.plan import make_plan
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.session_sheet import session_sheet_picture

PICTURES = Path(__file__).resolve().parent.parent / "docs" / "pictures"
MONDAY = date(2026, 3, 2)
PIXELS_PER_INCH = 100


def main() -> None:
    """Write every picture."""
    club = demo_club(MONDAY)
    plan = make_plan(club, club.session(BARBELL_SESSION))
    PICTURES.mkdir(exist_ok=True)
    picture = session_sheet_picture(
        plan, club, PrintedUnit.KILOGRAM, page=1, pixels_per_inch=PIXELS_PER_INCH
    )
    (PICTURES / "session-sheet.png").write_bytes(picture)
    print("Wrote docs/pictures/session-sheet.png")


if __name__ == "__main__":
    main()
