"""What the record says of an athlete: what he can do, what comes next, how often it was right."""
