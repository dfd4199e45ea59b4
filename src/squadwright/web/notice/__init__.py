"""Whom to look at today: three names at most, each with what it rests on."""
