"""A session while it runs: where on the run sheet the clock stands, and what has been done."""
