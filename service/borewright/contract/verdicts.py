"""Verdicts as replies name them, the one first that leaves nothing to look at."""

#: Of a hole specification.
HOLE = ("ready", "review", "infeasible")
#: What is proposed for a hole that went wrong.
REWORK = ("use_as_is", "rework", "repair", "scrap")
#: Of a row of a sheet that stands for a request.
ROW = ("read",)
#: Of the audit of a plan.
AUDIT = ("accept", "review", "reject")
#: Of a kept specification that is compared with the one of now.
COMPARISON = ("keep", "update", "review")
