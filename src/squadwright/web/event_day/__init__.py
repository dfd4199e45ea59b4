"""The day of a competition, at the mats: who must warm up now, weigh-ins, time between bouts."""
