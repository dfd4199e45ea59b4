"""Body mass towards the weigh-in: one athlete, the squad, and the scales. For the coach alone."""
