"""A session that ran from paper: its score sheet, and entering what was written on it."""
