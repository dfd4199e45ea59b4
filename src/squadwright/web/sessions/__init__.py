"""Sessions past and coming, the week they stand in, and their printed sheets."""
