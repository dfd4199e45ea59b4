"""Today: the plan of one session, as the coach reads it before anybody is through the door."""
