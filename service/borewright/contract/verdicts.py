"""Verdicts as replies name them, the one first that leaves nothing to look at."""

#: Of a hole specification.
HOLE = ("ready", "review", "infeasible")
#: Of the audit of a plan.
AUDIT = ("accept", "review", "reject")
#: Of a kept specification that is compared with the one of now.
COMPARISON = ("keep", "update", "review")
