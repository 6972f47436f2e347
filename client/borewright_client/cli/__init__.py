"""The ``borewright`` command: ask the service from a terminal or a script."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Sequence

from ..client import Client
from ..errors import ClientError, ConnectFailed, NoAnswer, RequestRefused
from . import batch
from .arguments import parser
from .text import TEXT

DEFAULT_URL = "http://127.0.0.1:8080"

#: Exit codes: 0 answered, 1 refused by the service, 2 wrong use (argparse), 3 service not reachable or unavailable.
REFUSED, USAGE, UNREACHABLE = 1, 2, 3


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    options = parser().parse_args(arguments)
    url = options.url or os.environ.get("BOREWRIGHT_CLIENT_URL", DEFAULT_URL)
    key = os.environ.get("BOREWRIGHT_CLIENT_KEY")
    with Client(url, api_key=key) as client:
        try:
            reply = options.call(client, options)
        except RequestRefused as error:
            return _fail(error, REFUSED)
        except (OSError, ValueError) as error:
            return _fail(error, USAGE)
        except (ConnectFailed, NoAnswer, ClientError) as error:
            return _fail(error, UNREACHABLE)
    if options.command == "batch":
        print(batch.text(reply), file=sys.stderr)
        return REFUSED if reply["failed"] else 0
    if options.json:
        json.dump(reply, sys.stdout, indent=2, ensure_ascii=False)
        print()
    else:
        print(TEXT[options.command](reply))
    return 0


def _fail(error: Exception, code: int) -> int:
    print(error, file=sys.stderr)
    return code
