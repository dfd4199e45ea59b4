"""Rooms: drawn to scale, made and changed by numbers, by dragging and by key."""
