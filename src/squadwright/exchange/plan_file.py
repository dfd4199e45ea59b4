"""The plan document: one planned session as JSON, its keys exactly the fields of the plan."""

from squadwright.exchange.club_file import write_document
from squadwright.exchange.complaint import as_error
from squadwright.exchange.document import text_of
from squadwright.exchange.reading import read_strictly
from squadwright.model.plan import Plan

PLACE = "the plan"


def read_plan(source: str | bytes) -> Plan:
    """The plan a JSON text holds; InvalidInput names the first mistake and counts the others."""
    text = source if isinstance(source, str) else text_of(source, place=PLACE)
    plan, complaints = read_strictly(Plan, text, place=PLACE)
    if plan is None:
        raise as_error(complaints)
    return plan


def write_plan(plan: Plan) -> str:
    """The plan as JSON, every field written."""
    return write_document(Plan, plan, leave_out_empty=False)
