"""What if: other rest, rounds, repetitions or load tried on one dose of the plan."""
