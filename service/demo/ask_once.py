"""Runs one `borewright` command against a service that lives as long as the command."""

from __future__ import annotations

import os
import sys

from borewright_client.cli import NO_ANSWER, main
from running import NotClean, running_service


def ask(arguments: list[str]) -> int:
    """The exit code of the command; that of a service that is not there where it did not start or stop."""
    try:
        with running_service() as client:
            os.environ["BOREWRIGHT_CLIENT_URL"] = client.url
            return main(arguments)
    except NotClean as error:
        print(error, file=sys.stderr)
        return NO_ANSWER


if __name__ == "__main__":
    sys.exit(ask(sys.argv[1:]))
