"""The day of testing: who is at which test when, in the order of last time, in no long queue."""
