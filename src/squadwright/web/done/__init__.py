"""After a session: what was done, effort at the door, the review, the record."""
