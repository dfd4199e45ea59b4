"""From one session to the next: where each load goes, and why."""
