"""Routines: the club's own, the shelf, the editor, sharing, and the sheet for an assistant."""
