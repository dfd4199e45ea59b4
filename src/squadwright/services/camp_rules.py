"""Use case of the coach's rules of a camp: kept with the club, and taken back as any change."""

from dataclasses import replace
from datetime import date

from squadwright.model.camp_rules import CampRules
from squadwright.model.club import Club
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.unit_of_work import Keeper

CHANGED_RULES = "These rules"


def set_camp_rules(keeper: Keeper, rules: CampRules, shown: str, *, today: date) -> Changed:
    """Store the rules; ``shown`` is the mark of those that the form was filled in over."""

    def change(club: Club) -> Club:
        require_unchanged(club.camp_rules, shown, CHANGED_RULES)
        return replace(club, camp_rules=rules)

    return change_club(keeper, change, today=today)
