"""The first day: from an empty database to the first printed plan, one short page a step."""
