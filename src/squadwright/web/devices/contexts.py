"""What the pages of second devices show."""

from dataclasses import dataclass

from markupsafe import Markup

from squadwright.web.forms import FormView
from squadwright.web.page import template


@dataclass(frozen=True)
class WaitingCode:
    """A code that may be typed in now."""

    id: str
    role: str
    digits: str
    until: str
    picture: Markup


@dataclass(frozen=True)
class JoinedDevice:
    """A device that takes part."""

    id: str
    name: str
    role: str
    since: str


@dataclass(frozen=True)
class WaveQuestionView:
    """An athlete in two waves at once, and the waves to choose from: number and letter."""

    athlete: str
    words: str
    choices: tuple[tuple[int, str], ...]


@dataclass(frozen=True)
@template("devices/session.html")
class DevicesPage:
    """The devices of a session: codes that wait, devices that take part."""

    title: str
    path: str
    pages: tuple[tuple[str, str], ...]
    addresses: tuple[str, ...]
    trust_addresses: tuple[str, ...]
    fingerprint: str
    roles: tuple[tuple[str, str], ...]
    waiting: tuple[WaitingCode, ...]
    joined: tuple[JoinedDevice, ...]
    questions: tuple[WaveQuestionView, ...]
    view: FormView
    file_view: FormView


@dataclass(frozen=True)
@template("devices/join.html")
class JoinPage:
    """Where a device types its code."""

    is_own_machine: bool
    code: str
    view: FormView


@dataclass(frozen=True)
@template("devices/trust.html")
class TrustPage:
    """How a device is told to trust the certificate."""

    is_there: bool
    addresses: tuple[str, ...]
    fingerprint: str
