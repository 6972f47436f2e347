"""The ``borewright`` command: ask the service from a terminal or a script."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Sequence

from ..client import Client, Reply
from ..errors import ClientError, RequestRefused
from . import batch, flat
from .arguments import parser
from .printable import all_printable, printable
from .sheet import paint_for
from .text import TEXT

DEFAULT_URL = "http://127.0.0.1:8080"

#: Exit codes beside 0; the help says when each is given. 2 is also what argparse gives.
REFUSED, WRONG_USE, NO_ANSWER, REJECTED, INTERRUPTED = 1, 2, 3, 4, 130


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    whole = parser()
    options = whole.parse_args(arguments)
    if options.completion:
        return _print_completion(whole, options.completion)
    if options.command is None:
        whole.error("a COMMAND is needed: spec, thread, drill, allowance, tap, note, audit, batch, plan or catalog")
    try:
        return _run(options)
    except BrokenPipeError:  # who read the output has had enough, as `| head` has
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        return _fail("interrupted", INTERRUPTED)


def _run(options: argparse.Namespace) -> int:
    url = options.url or os.environ.get("BOREWRIGHT_CLIENT_URL", DEFAULT_URL)
    with Client(url, api_key=os.environ.get("BOREWRIGHT_CLIENT_KEY")) as client:
        try:
            reply = options.call(client, options)
        except BrokenPipeError:
            raise
        except RequestRefused as error:
            return _fail(_refusal(error), REFUSED)
        except (OSError, ValueError) as error:
            return _fail(str(error), WRONG_USE)
        except ClientError as error:
            return _fail(str(error), NO_ANSWER)
    if options.command == "batch":
        print(batch.text(reply), file=sys.stderr)
        return REFUSED if reply["failed"] else 0
    _show(options, reply)
    sys.stdout.flush()
    return REJECTED if options.command == "audit" and reply["verdict"] == "reject" else 0


def _show(options: argparse.Namespace, reply: Reply) -> None:
    if options.json:
        print(printable(json.dumps(reply, indent=2, ensure_ascii=False)))
    elif options.csv:
        flat.write(sys.stdout, options.command, reply)
    else:
        print(TEXT[options.command](all_printable(reply), paint_for(sys.stdout)))


def _refusal(error: RequestRefused) -> str:
    """What was refused, a line a field with what is probably meant and what is allowed."""
    if not error.errors:
        return f"refused ({error.code}): {error.problem.get('detail') or error.problem.get('title', '')}"
    lines = [f"  {fault.get('pointer') or '/'}: {fault.get('detail', '')}{batch.hint(fault)}" for fault in error.errors]
    return "\n".join([f"refused ({error.code}):", *lines])


def _print_completion(whole: argparse.ArgumentParser, shell: str) -> int:
    try:
        import shtab
    except ImportError:
        return _fail("completion needs its extra: pip install 'borewright-client[completion]'", WRONG_USE)
    print(shtab.complete(whole, shell=shell))
    return 0


def _fail(said: str, code: int) -> int:
    print(paint_for(sys.stderr).bad(printable(said)), file=sys.stderr)
    return code


if __name__ == "__main__":
    sys.exit(main())
