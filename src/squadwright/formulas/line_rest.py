"""Rest that a line of athletes gives itself, and how many lanes a team can fill."""

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

ATHLETES = Range(low=1, high=1000, is_whole=True, reason=PROGRAM_LIMIT)
SECONDS = Range(low=0, is_low_open=True, high=3600, reason=PROGRAM_LIMIT)
REST_SECONDS = Range(low=0, high=3600, reason=PROGRAM_LIMIT)
REST_PER_WORK = Range(low=0, high=100, reason=PROGRAM_LIMIT)
SETS = Range(low=1, high=100, is_whole=True, reason=PROGRAM_LIMIT)
TOP = Range(low=1, high=100, is_whole=True, reason=PROGRAM_LIMIT)


@published(athletes=ATHLETES, work_s=SECONDS)
def line_rest(athletes: int, work_s: float) -> float:
    """Rest of each athlete in a line where one moves at a time.

    Parameters
    ----------
    athletes : athletes in the line [1], whole, 1 to 1000
    work_s : time one athlete works [s], more than 0 and at most 3600

    Returns
    -------
    rest [s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    (N - 1) w.

    References
    ----------
    line_arithmetic
    """
    return (athletes - 1) * work_s


@published(athletes=ATHLETES)
def line_rest_per_work(athletes: int) -> int:
    """Rest for one unit of work in a line where one moves at a time.

    Parameters
    ----------
    athletes : athletes in the line [1], whole, 1 to 1000

    Returns
    -------
    rest over work [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    N - 1: six in the line give 1:5, eleven 1:10.

    References
    ----------
    line_arithmetic
    """
    return athletes - 1


@published(athletes=ATHLETES, gap_s=SECONDS, work_s=SECONDS)
def staggered_line_rest(athletes: int, gap_s: float, work_s: float) -> float:
    """Rest of each athlete in a line whose starts are staggered.

    Parameters
    ----------
    athletes : athletes in the line [1], whole, 1 to 1000
    gap_s : time between two starts [s], more than 0 and at most 3600
    work_s : time one athlete works [s], more than 0 and at most 3600

    Returns
    -------
    rest [s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    N s - w. Keep the gap longer than the time to clear the landing ahead; two free boxes is
    common practice, no source.

    References
    ----------
    line_arithmetic
    """
    rest_s = athletes * gap_s - work_s
    if rest_s < 0:
        raise OutsidePublishedRange(
            "work_s", work_s, None, athletes * gap_s, "a longer pass meets the back of its own line"
        )
    return rest_s


@published(athletes=ATHLETES, gap_s=SECONDS, work_s=SECONDS)
def staggered_line_rest_per_work(athletes: int, gap_s: float, work_s: float) -> float:
    """Rest for one unit of work in a line whose starts are staggered.

    Parameters
    ----------
    athletes : athletes in the line [1], whole, 1 to 1000
    gap_s : time between two starts [s], more than 0 and at most 3600
    work_s : time one athlete works [s], more than 0 and at most 3600

    Returns
    -------
    rest over work [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    (N s - w) / w.

    References
    ----------
    line_arithmetic
    """
    return staggered_line_rest(athletes, gap_s, work_s) / work_s


@published(athletes=ATHLETES, rest_per_work=REST_PER_WORK)
def lanes_for_rest_per_work(athletes: int, rest_per_work: float) -> int:
    """Most lanes that still give every athlete the wanted rest.

    Parameters
    ----------
    athletes : athletes in the line [1], whole, 1 to 1000
    rest_per_work : rest wanted for one unit of work [1], 0 to 100

    Returns
    -------
    lanes [lanes]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or more rest than one line gives

    Notes
    -----
    floor(N / (R + 1)), one athlete moving in each lane.

    References
    ----------
    line_arithmetic
    """
    lanes = int((athletes + 1e-9) // (rest_per_work + 1))
    if lanes < 1:
        raise OutsidePublishedRange(
            "rest_per_work",
            rest_per_work,
            0,
            athletes - 1,
            "even one line of these athletes rests too little; add a stated rest",
        )
    return lanes


@published(work_s=SECONDS, rest_per_work=REST_PER_WORK)
def rest_for_work(work_s: float, rest_per_work: float) -> float:
    """Rest that goes with a time of work at a wanted ratio.

    Parameters
    ----------
    work_s : time one athlete works [s], more than 0 and at most 3600
    rest_per_work : rest wanted for one unit of work [1], 0 to 100

    Returns
    -------
    rest [s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    R w.

    References
    ----------
    line_arithmetic
    """
    return rest_per_work * work_s


@published(top=TOP, seconds_per_jump=SECONDS)
def ladder_work_time(top: int, seconds_per_jump: float) -> float:
    """Time a ladder 1, 2, ..., top, ..., 2, 1 takes.

    Parameters
    ----------
    top : highest number of the ladder [1], whole, 1 to 100
    seconds_per_jump : time of one jump [s], more than 0 and at most 3600

    Returns
    -------
    work [s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    n^2 jumps.

    References
    ----------
    line_arithmetic
    """
    return top * top * seconds_per_jump


@published(sets=SETS, work_s=SECONDS, rest_s=REST_SECONDS)
def sets_duration(sets: int, work_s: float, rest_s: float) -> float:
    """Time from the start of the first set to the end of the last.

    Parameters
    ----------
    sets : sets [1], whole, 1 to 100
    work_s : time one athlete works [s], more than 0 and at most 3600
    rest_s : rest between two sets [s], 0 to 3600

    Returns
    -------
    duration [s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    n w + (n - 1) r: no rest after the last set.

    References
    ----------
    line_arithmetic
    """
    return sets * work_s + (sets - 1) * rest_s
