"""Roster import: a file of athletes looked at cell by cell before anything is stored."""
