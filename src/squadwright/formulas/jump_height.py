"""Height of a jump from flight time, take-off speed or impulse.

Flight-time heights stand about 1.7 cm above impulse heights on the same jumps: never mix methods in
one athlete's series.
"""

from squadwright.formulas.body import BODY_MASS
from squadwright.formulas.gravity import GRAVITY, TEXTBOOK_GRAVITY_M_S2
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

FLIGHT_TIME = Range(low=0, is_low_open=True, high=1.1, reason=PROGRAM_LIMIT)
TAKE_OFF_SPEED = Range(low=0, is_low_open=True, high=5.4, reason=PROGRAM_LIMIT)
NET_IMPULSE = Range(low=0, is_low_open=True, high=1000, reason=PROGRAM_LIMIT)


@published(flight_time_s=FLIGHT_TIME, gravity_m_s2=GRAVITY)
def jump_height_flight_time(
    flight_time_s: float, gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2
) -> float:
    """Height of a jump from its flight time.

    Parameters
    ----------
    flight_time_s : time in the air [s], more than 0 and at most 1.1
    gravity_m_s2 : acceleration of gravity [m/s^2], 9.76 to 9.84

    Returns
    -------
    height [m]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    h = g t^2 / 8, for the same posture at take-off and landing.

    References
    ----------
    mechanics jump_recordings
    """
    return gravity_m_s2 * flight_time_s**2 / 8


@published(velocity_m_s=TAKE_OFF_SPEED, gravity_m_s2=GRAVITY)
def jump_height_take_off_velocity(
    velocity_m_s: float, gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2
) -> float:
    """Height of a jump from the speed at take-off.

    Parameters
    ----------
    velocity_m_s : speed of the centre of mass at take-off [m/s], more than 0 and at most 5.4
    gravity_m_s2 : acceleration of gravity [m/s^2], 9.76 to 9.84

    Returns
    -------
    height [m]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    h = v^2 / (2 g).

    References
    ----------
    linthorne_2001
    """
    return velocity_m_s**2 / (2 * gravity_m_s2)


@published(net_impulse_n_s=NET_IMPULSE, mass_kg=BODY_MASS)
def take_off_velocity_impulse(net_impulse_n_s: float, mass_kg: float) -> float:
    """Speed at take-off from the net impulse.

    Parameters
    ----------
    net_impulse_n_s : impulse of the force above body weight [N s], more than 0 and at most 1000
    mass_kg : body mass [kg], 20 to 300

    Returns
    -------
    speed at take-off [m/s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    v = J / m, from rest.

    References
    ----------
    linthorne_2001
    """
    return net_impulse_n_s / mass_kg


@published(net_impulse_n_s=NET_IMPULSE, mass_kg=BODY_MASS, gravity_m_s2=GRAVITY)
def jump_height_impulse(
    net_impulse_n_s: float, mass_kg: float, gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2
) -> float:
    """Height of a jump from the net impulse.

    Parameters
    ----------
    net_impulse_n_s : impulse of the force above body weight [N s], more than 0 and at most 1000
    mass_kg : body mass [kg], 20 to 300
    gravity_m_s2 : acceleration of gravity [m/s^2], 9.76 to 9.84

    Returns
    -------
    height [m]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    h = (J / m)^2 / (2 g).

    References
    ----------
    linthorne_2001
    """
    return (net_impulse_n_s / mass_kg) ** 2 / (2 * gravity_m_s2)


@published(velocity_m_s=TAKE_OFF_SPEED, gravity_m_s2=GRAVITY)
def flight_time_take_off_velocity(
    velocity_m_s: float, gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2
) -> float:
    """Flight time from the speed at take-off.

    Parameters
    ----------
    velocity_m_s : speed of the centre of mass at take-off [m/s], more than 0 and at most 5.4
    gravity_m_s2 : acceleration of gravity [m/s^2], 9.76 to 9.84

    Returns
    -------
    time in the air [s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    t = 2 v / g.

    References
    ----------
    mechanics
    """
    return 2 * velocity_m_s / gravity_m_s2


@published(flight_time_s=FLIGHT_TIME, gravity_m_s2=GRAVITY)
def take_off_velocity_flight_time(
    flight_time_s: float, gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2
) -> float:
    """Speed at take-off from the flight time.

    Parameters
    ----------
    flight_time_s : time in the air [s], more than 0 and at most 1.1
    gravity_m_s2 : acceleration of gravity [m/s^2], 9.76 to 9.84

    Returns
    -------
    speed at take-off [m/s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    v = g t / 2.

    References
    ----------
    mechanics
    """
    return gravity_m_s2 * flight_time_s / 2
