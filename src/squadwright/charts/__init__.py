"""Charts: one description, drawn the same on the page and in print."""
