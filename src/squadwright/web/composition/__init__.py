"""Body composition of one athlete: assessments by others than the coach, and what follows."""
