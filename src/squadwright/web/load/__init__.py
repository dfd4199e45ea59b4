"""The whole load: what was planned, what was told, what the weeks come to, and telling it."""
