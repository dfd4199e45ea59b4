"""The live floor: a session while it runs."""
