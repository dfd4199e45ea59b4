"""The week of the camp: timetable with mat work, load, clashes, one change and its message."""
