"""Tests: the battery, results by method with what a change is worth, a day of testing."""
