"""Words for the sex and the level of an athlete, as people write them."""

from squadwright.model.athlete import Level, Sex

SEX_WORDS = {
    **dict.fromkeys(("f", "female", "w", "woman", "women", "girl"), Sex.FEMALE),
    **dict.fromkeys(("m", "male", "man", "men", "boy"), Sex.MALE),
}
LEVEL_WORDS = {
    **dict.fromkeys(("novice", "beginner", "new", "nov"), Level.NOVICE),
    **dict.fromkeys(("intermediate", "int"), Level.INTERMEDIATE),
    **dict.fromkeys(("advanced", "experienced", "adv"), Level.ADVANCED),
}
