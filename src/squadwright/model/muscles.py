"""Muscle groups and body areas an exercise may use or load."""

from enum import StrEnum


class MuscleGroup(StrEnum):
    """Groups whose fresh strength a repetition lowers."""

    KNEE_EXTENSORS = "knee extensors"
    HIP_EXTENSORS = "hip extensors"
    TRUNK_EXTENSORS = "trunk extensors"
    TRUNK_FLEXORS = "trunk flexors"
    CALVES = "calves"
    UPPER_BACK = "upper back"
    ELBOW_FLEXORS = "elbow flexors"
    GRIP = "grip"
    CHEST = "chest"
    SHOULDERS = "shoulders"
    ELBOW_EXTENSORS = "elbow extensors"


class BodyArea(StrEnum):
    """Areas of the body in which pain may be reported or a restriction may lie."""

    HEAD = "head"
    NECK = "neck"
    SHOULDER = "shoulder"
    ELBOW = "elbow"
    WRIST_HAND = "wrist or hand"
    UPPER_BACK = "upper back"
    LOW_BACK = "low back"
    RIBS = "ribs"
    HIP_GROIN = "hip or groin"
    THIGH = "thigh"
    KNEE = "knee"
    SHIN_CALF = "shin or calf"
    ANKLE_FOOT = "ankle or foot"
