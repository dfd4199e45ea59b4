"""Prohibited means of losing mass: a plan that names one is refused, flagged and logged.

The words are kept only to be recognised. What is answered names a kind of means and nothing more,
so that no text of the program teaches any of them.
"""

import re
import unicodedata
from dataclasses import dataclass
from datetime import datetime

from squadwright.formulas.sources import find_source
from squadwright.model.plan import Finding, Severity
from squadwright.planning.finding import finding
from squadwright.planning.gates.mass import no_plan_for_a_minor
from squadwright.planning.gates.subject import Subject, instant

RULE = "prohibited means"
MEDICAL_CONTACT = "medical contact"
GUARDIAN = "guardian"
COLLEGES, WRESTLING, ANTI_DOPING = (
    "ncaa_1998_means",
    "usa_wrestling_1998_means",
    "anti_doping_recalled",
)

_KEEPING_OFF = "(?:no|zero|stop|stopping|skip|skipping|without|cut|cutting|restrict|restricting)"
_LESS = "(?:less|limit|limiting|reduce|reducing|lower|little)"
_BETWEEN = "(?:all |any |of |on |down on |out |off |his |her |your |my |the )*"
_FOOD = "(?:food|foods|meals?|eating|salt|sodium)"
_DRINK = "(?:fluids?|liquids?|water|drinks?|drinking)"

KINDS: tuple[tuple[str, str, str], ...] = (
    (
        "heat",
        COLLEGES,
        r"saunas?|steam(?: ?rooms?| ?baths?)?|hot (?:rooms?|baths?|showers?|tubs?|car)"
        r"|heat(?:ed|ing)? (?:rooms?|blankets?|lamps?|devices?)|infrared (?:cabins?|blankets?)"
        r"|sweat(?:ing)? (?:it |them |weight |water )?(?:out|off)|sweat ?box|banya|hammam"
        r"|epsom(?: salts?)?|salt baths?",
    ),
    (
        "clothing",
        WRESTLING,
        r"(?:rubber|plastic|sauna|sweat|nylon|vinyl|vapou?r|impermeable)[a-z ]{0,14}"
        r"(?:suits?|jackets?|trousers|clothes|wraps?)"
        r"|(?:bin|trash|garbage|refuse|plastic) ?(?:bags?|liners?)|cling ?film|layers of clothes",
    ),
    (
        "medicine",
        ANTI_DOPING,
        r"laxatives?|diuretics?|emetics?|masking agents?|water (?:pills?|tablets?)|enemas?"
        r"|furosemide|frusemide|hydrochlorothiazide|spironolactone|bisacodyl"
        r"|diet pills?|slimming pills?|fat burners?|clenbuterol|ephedrine",
    ),
    (
        "emptying the body",
        COLLEGES,
        r"vomit(?:s|ing|ed)?|purg(?:e|es|ed|ing)|throw(?:s|ing)? up|puk(?:e|es|ing)"
        r"|spit(?:s|ting)?|fingers? down",
    ),
    (
        "food and drink",
        COLLEGES,
        rf"{_KEEPING_OFF} {_BETWEEN}(?:{_FOOD}|{_DRINK})|{_LESS} {_BETWEEN}{_DRINK}"
        rf"|(?:{_FOOD}|{_DRINK}) (?:cuts?|cutting|load|loading|restriction|manipulation)"
        r"|dehydrat\w*|dry(?:ing)? out|starv\w*|on a fast|\d+ ?(?:days?|hours?|h) fast"
        r"|fast(?:ing|ed)|crash diets?",
    ),
    (
        "needle",
        ANTI_DOPING,
        r"iv|i v|intravenous\w*|infusions?|drips?|blood (?:letting|donations?)"
        r"|(?:give|giving|donat(?:e|ing)) blood",
    ),
)
"""Kind of means, source, and the words by which it is recognised."""

_WORK = (
    r"(?:train\w*|exercis\w*|work\w*|runs?|running|jog\w*|spar\w*|drill\w*|roll\w*|skip\w*"
    r"|bik(?:e|es|ing)|cycl\w*|row\w*|pads|rounds?|circuits?|session|sweat\w*)"
)
_HOT = (
    r"(?:in (?:all )?(?:the )?(?:a )?(?:full )?(?:heat|hot\w*|sun|midday|warm|heated|humid\w*)"
    r"|heat(?:ers?|ing)? (?:is |are )?(?:on|up)|hot (?:conditions|hall|gym|weather|day|hour))"
)
_IN_HEAT = re.compile(
    rf"\b(?:{_WORK}\b[a-z0-9 ]{{0,40}}\b{_HOT}|{_HOT} [a-z0-9 ]{{0,40}}\b{_WORK})\b"
)
_TO_LOSE = re.compile(
    r"\b(?:(?:make|making|cut|cutting|lose|losing|drop|dropping|shed|shedding|take|taking|get|getting"
    r"|sweat|sweating|burn|burning)(?: [a-z0-9]+){0,3} (?:weight|mass|kilos?|kg|pounds?|lbs?)"
    r"|weight (?:cuts?|cutting|loss|making)"
    r"|(?:for|on|to) (?:the |his |her )?(?:weight|weigh ?in|scales?)"
    r"|(?:kg|kilos?|lbs?|pounds?) (?:over|off|to go|too heavy)|over(?:weight| by)|sweat\w*"
    r"|dehydrat\w*|dry(?:ing)? out)\b"
)
HEAT, CLOTHING = "heat", "clothing"
"""Two kinds: the one that work in hot conditions belongs to, the one barred for any purpose."""

_PATTERNS = tuple((kind, source, re.compile(rf"\b(?:{words})\b")) for kind, source, words in KINDS)
_LOOKS_LIKE = dict(zip("013457@$", "oieastas", strict=True))
_HIDDEN = re.compile("[\u00ad\u200b-\u200f\u2060\ufeff]")
_SPELT = re.compile(r"\b(?:[a-z] ){2,}[a-z]\b")


@dataclass(frozen=True)
class Notice:
    """Somebody to be told, and what."""

    to: str
    sentence: str


@dataclass(frozen=True)
class LogEntry:
    """One line of the log; ``kept_text`` is what was typed, for medical staff alone."""

    at: datetime
    athlete: str
    rule: str
    sentence: str
    kept_text: str


@dataclass(frozen=True)
class PlanAnswer:
    """What becomes of a plan to lose mass. It is refused where a finding stops it."""

    findings: tuple[Finding, ...]
    notices: tuple[Notice, ...]
    log: tuple[LogEntry, ...]

    @property
    def is_refused(self) -> bool:
        """Whether anything stops the plan."""
        return any(item.severity is Severity.STOP for item in self.findings)


def kinds_of_means_in(text: str) -> tuple[str, ...]:
    """The kinds of prohibited means that a text names, in any spelling it can be read in."""
    readings = [_plain(text), _plain(_letters_for_signs(text))]
    readings += [_SPELT.sub(lambda spelt: spelt[0].replace(" ", ""), each) for each in readings]
    return tuple(
        kind for kind, _, words in _PATTERNS if any(words.search(each) for each in readings)
    )


def means_of_a_plan(text: str) -> tuple[str, ...]:
    """The kinds of means in a plan to lose mass: work in hot conditions is one of them there."""
    kinds = kinds_of_means_in(text)
    is_in_heat = HEAT not in kinds and _IN_HEAT.search(_plain(text))
    return (HEAT, *kinds) if is_in_heat else kinds


def means_of_work(text: str, *, is_hot: bool = False) -> tuple[str, ...]:
    """The kinds of means for which a text says that work is done; ``is_hot``: as it was read.

    Heat alone is no purpose and a word alone no plan: it has to say that mass is to be lost. Only
    clothing is barred for any purpose.
    """
    kinds = means_of_a_plan(text)
    if not _TO_LOSE.search(_plain(text)):
        return tuple(kind for kind in kinds if kind == CLOTHING)
    return (HEAT, *kinds) if is_hot and HEAT not in kinds else kinds


def judge_plan(
    who: Subject,
    text: str,
    picked: tuple[str, ...] = (),
    *,
    at: datetime,
    against: tuple[Finding, ...] = (),
) -> PlanAnswer:
    """Judge a plan to lose mass by its free text and the methods picked for it.

    ``against`` is what else stands in its way, whatever it says.
    """
    typed = "; ".join((text, *picked))
    kinds = means_of_a_plan(typed)
    findings = (*against, *(_refused(who, kind) for kind in kinds))
    if who.is_minor:
        findings = (no_plan_for_a_minor(who), *findings)
    if not findings:
        return PlanAnswer((), (), ())
    to = (MEDICAL_CONTACT, GUARDIAN) if who.is_minor else (MEDICAL_CONTACT,)
    told = f"{who.shown_name}: a plan to lose mass was refused ({_reasons(who, kinds)})."
    return PlanAnswer(
        findings=findings,
        notices=tuple(Notice(name, told) for name in to),
        log=tuple(
            LogEntry(instant("at", at), who.id, item.rule, item.sentence, typed)
            for item in findings
        ),
    )


def source_of(kind: str) -> str:
    """The key of the source of a kind."""
    return next(source for name, source, _ in KINDS if name == kind)


def _refused(who: Subject, kind: str) -> Finding:
    key = source_of(kind)
    return finding(
        RULE,
        Severity.STOP,
        f"{who.shown_name}: the plan names a means that is not allowed ({kind})",
        athlete=who.id,
        source=find_source(key).citation,
        advice="The plan is refused and the medical contact is told. Write one with a sports "
        "dietitian, or choose a heavier class",
    )


def _reasons(who: Subject, kinds: tuple[str, ...]) -> str:
    reasons = [f"under 18: {who.age}"] if who.is_minor else []
    reasons += [f"means: {', '.join(kinds)}"] if kinds else []
    return "; ".join(reasons) or "none is allowed now"


def _plain(text: str) -> str:
    """Small letters without accents, hidden signs and punctuation."""
    folded = unicodedata.normalize("NFKD", _HIDDEN.sub("", text)).casefold()
    letters = "".join(c for c in folded if not unicodedata.combining(c))
    return " ".join(re.sub(r"[^a-z0-9]+", " ", letters).split())


def _letters_for_signs(text: str) -> str:
    """Digits and signs beside a letter, read as the letter they look like."""
    return re.sub(r"(?<=[A-Za-z])[013457@$]|[013457@$](?=[A-Za-z])", _letter_for, text)


def _letter_for(sign: re.Match[str]) -> str:
    return _LOOKS_LIKE[sign[0]]
