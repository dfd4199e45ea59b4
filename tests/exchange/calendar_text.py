"""Calendar files written by hand, as tests need them."""


def ics(*lines: str) -> bytes:
    """A calendar around some lines."""
    inside = ("BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//League//EN", *lines, "END:VCALENDAR")
    return "\r\n".join((*inside, "")).encode()


def event(*lines: str, uid: str = "match-1@league.example") -> tuple[str, ...]:
    """One entry of a calendar."""
    return ("BEGIN:VEVENT", f"UID:{uid}", "DTSTAMP:20260301T000000Z", *lines, "END:VEVENT")
