"""Published formulas: pure functions, one module per phenomenon, the source in each docstring."""
