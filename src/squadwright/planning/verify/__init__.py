"""A second look at a whole plan: every rule it must keep, read afresh from the club.

It knows the model and the library and nothing of the parts that make plans, so that a mistake in
one of them is not repeated here. Each rule is a function whose docstring says it in words; its name
is the name of the constraint.
"""

from squadwright.planning.verify.check import RULES, Breach, verify_plan

__all__ = ["RULES", "Breach", "verify_plan"]
