"""Who is at work, as far as the program knows: a device by its name and role, or the program."""

from contextvars import ContextVar

COMMAND_LINE = "command line"
WHO: ContextVar[str] = ContextVar("who", default=COMMAND_LINE)
"""Set by the site for each request; what is written without one comes from the command line."""
