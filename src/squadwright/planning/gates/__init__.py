"""Safety gates: pure functions that give a finding with value, limit, unit, source and advice.

A gate records, warns and blocks. It never diagnoses, never clears, and never says how mass is
lost. Medical staff, local rules and licensed practice come first. A coach may set a limit
stricter, never looser (``limits``); what a gate has stopped is lifted by a medical entry alone
(``lifting``).
"""
