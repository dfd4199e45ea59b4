"""Squadwright: the workbench of a coach who runs strength and conditioning for a combat team."""

__version__ = "0.1.0"
