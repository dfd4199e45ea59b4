"""Incidents as they were noted, for the coach alone, and the emergency card."""
