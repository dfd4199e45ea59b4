"""Constrained field types shared by the model, with their limits in one place."""

from typing import Annotated

from annotated_types import Ge, Gt, Le, Len, Lt

Identifier = Annotated[str, Len(1, 60)]
Name = Annotated[str, Len(1, 120)]
# A name that may be left empty.
Label = Annotated[str, Len(0, 120)]
Note = Annotated[str, Len(0, 1000)]
Fraction = Annotated[float, Ge(0.0), Le(1.0)]
Probability = Annotated[float, Gt(0.0), Lt(1.0)]
Metres = Annotated[float, Ge(0.0), Le(200.0)]
Degrees = Annotated[float, Ge(0.0), Lt(360.0)]
StatureMetres = Annotated[float, Gt(0.9), Lt(2.6)]
Count = Annotated[int, Ge(0), Le(1000)]
Tally = Annotated[int, Ge(0), Le(1_000_000)]
PositiveCount = Annotated[int, Ge(1), Le(1000)]
# Taps of one fault in one round, after which the floor asks.
FaultTaps = Annotated[int, Ge(1), Le(9)]
Repetitions = Annotated[int, Ge(1), Le(200)]
Seconds = Annotated[int, Ge(0), Le(14_400)]
Minutes = Annotated[int, Ge(5), Le(300)]
PainScore = Annotated[int, Ge(0), Le(10)]
BoutMinutes = Annotated[int, Ge(1), Le(60)]
# Effort of a whole session, 0 to 10.
Effort = Annotated[int, Ge(0), Le(10)]
Hours = Annotated[int, Ge(0), Le(240)]
# A step of the graded return after a head knock.
ReturnStep = Annotated[int, Ge(1), Le(6)]
CalendarYear = Annotated[int, Ge(1950), Le(2200)]
GateValue = Annotated[float, Ge(0.0), Le(1000.0)]
BodyTemperature = Annotated[float, Ge(30.0), Le(45.0)]
Celsius = Annotated[float, Ge(-20.0), Le(60.0)]
Years = Annotated[float, Ge(0.0), Le(80.0)]
