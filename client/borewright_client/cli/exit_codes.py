"""How a command can end."""

from __future__ import annotations

#: Beside 0; the help says when each is given. 2 is also what click gives.
REFUSED, WRONG_USE, NO_ANSWER, REJECTED, INTERRUPTED = 1, 2, 3, 4, 130

EXPLAINED = """\
exit codes:
  0    answered: every hole is specified, the plan is accepted or to be reviewed
  1    refused: the service says which field is wrong; in a batch, at least one hole
  2    wrong use: an option, a file or a column that cannot be used; nothing was asked
  3    no answer: the service is not reachable, or cannot answer now
  4    audit: the plan is rejected; compare: something that matters differs
  130  interrupted
"""


class WrongUse(ValueError):
    """Options or a file that cannot be used as they are; nothing was asked."""
