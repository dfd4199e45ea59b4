"""The camp: every athlete back-planned from his events, on one timetable of the squad."""
