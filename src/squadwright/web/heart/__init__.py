"""Recordings of the heart: taken in from a file, looked at, and what they say by author."""
