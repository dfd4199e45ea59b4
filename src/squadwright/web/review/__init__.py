"""A block looked back on: what was planned and done, what changed, how templates compare."""
