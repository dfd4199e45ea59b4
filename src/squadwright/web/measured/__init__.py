"""What is measured of one athlete beside his sessions: the forms, and what was kept of it."""
