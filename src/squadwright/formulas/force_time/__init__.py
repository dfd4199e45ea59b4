"""Jumps from a force plate: a countermovement jump by impulse, a drop jump by its times."""
