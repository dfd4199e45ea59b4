"""Solvers and checks that turn a club, a check-in and a routine into one plan."""
