"""The effort of a whole session, 0 to 10: the words that stand beside the numbers."""

# The category-ratio scale for the effort of a whole session, as egan_2006 prints it in table 1.
# 6, 8 and 9 have no words of their own.
EFFORT_SOURCE = "egan_2006"
# When it is asked: about half an hour after; asked sooner or later it changes little.
EFFORT_TIME_SOURCE = "foster_2021"
EFFORT_WORDS: dict[int, str] = {
    0: "rest",
    1: "very, very easy",
    2: "easy",
    3: "moderate",
    4: "somewhat hard",
    5: "hard",
    7: "very hard",
    10: "maximal",
}
EFFORTS = tuple(range(11))
# Repetitions in reserve are asked up to here: above that nobody can tell (our estimate).
RESERVES = tuple(range(6))
