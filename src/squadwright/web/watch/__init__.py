"""The watch: one athlete in charts, and the squad in a table."""
