"""Use cases: the only place that opens a unit of work."""
