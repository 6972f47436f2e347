"""The ``borewright`` command: ask the service from a terminal or a script."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from .exit_codes import NO_ANSWER, WRONG_USE

__all__ = ["NO_ANSWER", "main"]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    try:
        from .program import run
    except ModuleNotFoundError as missing:
        if missing.name != "click":
            raise
        print("the command needs its extra: pip install 'borewright-client[cli]'", file=sys.stderr)
        return WRONG_USE
    return run(arguments)


if __name__ == "__main__":
    sys.exit(main())
