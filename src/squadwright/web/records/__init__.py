"""Everything that was noted, and the ways in and out for all of it."""
