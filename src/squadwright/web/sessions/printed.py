"""The printed sheets of a session, made from the plan that its page shows."""

import io
import zipfile
from datetime import datetime, time
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import Response

from squadwright.errors import NoSolution, NotFound
from squadwright.model.plan import Plan
from squadwright.printing.choices import PrintedUnit, Sheet
from squadwright.printing.sheets import file_stem, sheet_pdf
from squadwright.services.clubs import load_club
from squadwright.services.planning import Planned
from squadwright.services.sheets import plan_to_print
from squadwright.web.file import attachment
from squadwright.web.page import render
from squadwright.web.paper.paths import paper_path
from squadwright.web.sessions.contexts import SheetLine, SheetsPage
from squadwright.web.sessions.pages import plan_path, session_path
from squadwright.web.site import site
from squadwright.web.wording import day_text, time_text

SHEETS = {
    Sheet.SESSION: ("Session sheet", "Two pages for the coach: who does what, when and where."),
    Sheet.SET_UP: ("Set-up sheet", "What to fetch and where it goes, in the order of the store."),
    Sheet.CARDS: ("Athlete cards", "One card for each athlete: loads, rounds and cautions."),
    Sheet.WALL: ("Wall sheet", "Large digits, to be read from the far side of the room."),
}
SCORE_SHEET = (
    "Score sheet",
    "To write on where there is no device. Its code opens the page on which it is entered.",
)
UNITS = {
    PrintedUnit.KILOGRAM: "kilograms",
    PrintedUnit.POUND: "pounds",
    PrintedUnit.BOTH: "both",
}


def sheets(request: Request) -> Response:
    """The list of sheets, a press each."""
    here = site(request)
    session = load_club(here.keeper).session(request.path_params["session"])
    trouble = ""
    try:
        plan_to_print(here.keeper, session.id, today=here.today())
    except NoSolution as error:
        trouble = str(error)
    unit = _unit(request)
    base, asked = session_path(session.id, "sheets"), urlencode({"unit": unit.value})
    page = SheetsPage(
        title=session.name,
        line=f"{day_text(session.held_on)}, {time_text(session.starts_at)}.",
        trouble=trouble,
        sheets=(
            *(
                SheetLine(name, words, f"{base}/{sheet.value}.pdf?{asked}")
                for sheet, (name, words) in SHEETS.items()
            ),
            SheetLine(*SCORE_SHEET, paper_path(session.id, "sheet.pdf")),
        ),
        all_path=f"{base}/all.zip?{asked}",
        plan_path=plan_path(session.id),
        units=tuple((each.value, words, each is unit) for each, words in UNITS.items()),
    )
    return render(request, page)


def single_sheet(request: Request) -> Response:
    """One sheet as PDF."""
    name = request.path_params["sheet"]
    if name not in [sheet.value for sheet in Sheet]:
        raise NotFound(f"There is no sheet {name!r}. Choose one of the list")
    planned = _planned(request)
    sheet = Sheet(name)
    document = sheet_pdf(planned.plan, planned.club, sheet, _unit(request))
    return attachment(document, f"{file_stem(planned.plan)}-{sheet.value}.pdf", "application/pdf")


def sheets_together(request: Request) -> Response:
    """All sheets in one ZIP file; the same plan gives the same bytes."""
    planned = _planned(request)
    stem, unit = file_stem(planned.plan), _unit(request)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_STORED) as archive:
        for sheet in Sheet:
            document = sheet_pdf(planned.plan, planned.club, sheet, unit)
            archive.writestr(_entry(planned.plan, f"{stem}-{sheet.value}.pdf"), document)
    return attachment(packed.getvalue(), f"{stem}.zip", "application/zip")


def _planned(request: Request) -> Planned:
    here = site(request)
    return plan_to_print(here.keeper, request.path_params["session"], today=here.today())


def _unit(request: Request) -> PrintedUnit:
    typed = request.query_params.get("unit", "")
    return next((unit for unit in PrintedUnit if unit.value == typed), PrintedUnit.KILOGRAM)


def _entry(plan: Plan, name: str) -> zipfile.ZipInfo:
    moment = datetime.combine(max(plan.session.held_on, datetime(1980, 1, 1).date()), time())
    return zipfile.ZipInfo(name, moment.timetuple()[:6])
