"""Tables, repositories and migrations (SQLite by default, PostgreSQL by URL)."""
