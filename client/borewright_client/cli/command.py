"""What makes a function a command: its parameters and its help; the service asked, the reply shown, the exit code."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Sequence
from types import SimpleNamespace
from typing import Any

import click

from ..client import Client, Reply
from ..errors import ClientError, RequestRefused
from . import flat
from .exit_codes import EXPLAINED, INTERRUPTED, NO_ANSWER, REFUSED, WRONG_USE, WrongUse
from .hints import hint
from .options import parameters_of, place_of, request_of, units_option
from .printable import all_printable, printable
from .sheet import paint_for
from .text import FULL, TEXT

DEFAULT_URL = "http://127.0.0.1:8080"
_KEY_NEEDED = 401

#: Asks the service what the options say. Where a command sets fields of a request, ``options.request`` is that request.
Ask = Callable[[Client, SimpleNamespace], Reply]
#: What a reply means for the exit code.
Judge = Callable[[Reply], int]


class _Command(click.Command):
    """A command whose epilog is printed as it stands."""

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the epilog."""
        formatter.write(f"\n{self.epilog}")


class _Group(_Command, click.Group):
    """A command that has commands, listed as they were made."""

    def list_commands(self, _: click.Context) -> list[str]:
        """Their names."""
        return list(self.commands)


GROUP = _Group(
    "borewright",
    help="Tapped holes: from a thread callout to the shop floor.",
    context_settings={"max_content_width": 100, "help_option_names": ["-h", "--help"]},
)


def command(
    name: str, text: str, *parameters: click.Parameter, request: str = "", examples: Sequence[str], more: str = "",
    judge: Judge = lambda _: 0, shown: bool = True,
) -> Callable[[Ask], Ask]:  # fmt: skip
    """Make a function a command.

    Args:
        name: of the command; its sheet is that of the same name in ``text.TEXT``, with ``--full`` in ``text.FULL``,
            its CSV that in ``columns.WRITTEN``.
        text: what it does, a line.
        parameters: beside those of ``request`` and those that every command has.
        request: whose fields become parameters, of those that the columns name; without it the command makes its own.
        examples: what may stand after ``borewright NAME``.
        more: what the help says after them.
        judge: exit code of a reply.
        shown: whether the reply is printed; else the command has written what it has.
    """
    listed = "".join(f"  borewright {name} {example}\n" for example in examples)
    of_request = parameters_of(request) if request else [units_option()]

    def made(ask: Ask) -> Ask:
        def run(**given: Any) -> int:
            return _run(name, ask, judge, given, with_request=bool(request), shown=shown)

        GROUP.add_command(
            _Command(
                name,
                callback=run,
                params=[*of_request, *parameters, *_of_every_command()],
                short_help=text,
                help=f"{text.capitalize()}.",
                epilog="\n".join(filter(None, (f"examples:\n{listed}", more, EXPLAINED))),
            )
        )
        return ask

    return made


def argument(name: str, metavar: str) -> click.Argument:
    """An argument of a command; a file is completed as one."""
    return click.Argument([name], metavar=metavar, type=click.Path() if metavar == "FILE" else None)


def option(*names: str, **told: Any) -> click.Option:
    """An option of a command."""
    return click.Option(names, **told)


def _of_every_command() -> list[click.Parameter]:
    return [
        option("--url", help="address of the service (else BOREWRIGHT_CLIENT_URL, else http://127.0.0.1:8080)"),
        option("--json", is_flag=True, help="print the reply as JSON"),
        option("--csv", is_flag=True, help="print a flat table as CSV"),
    ]


def _run(name: str, ask: Ask, judge: Judge, given: dict[str, Any], *, with_request: bool, shown: bool) -> int:
    try:
        options = SimpleNamespace(**_asked(given, with_request=with_request))
        with Client(_address(options), api_key=os.environ.get("BOREWRIGHT_CLIENT_KEY")) as client:
            reply = ask(client, options)
        if shown:
            _show(name, options, reply)
            sys.stdout.flush()
            for path in filter(None, (given.get(file) for file in _FILES)):
                print(f"{printable(path)} written", file=sys.stderr)
        return judge(reply)
    except BrokenPipeError:  # who read the output has had enough, as `| head` has
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except RequestRefused as error:
        return fail(_refusal(error), REFUSED)
    except (OSError, ValueError) as error:
        return fail(str(error), WRONG_USE)
    except ClientError as error:
        return fail(str(error), NO_ANSWER)
    except KeyboardInterrupt:
        return fail("interrupted", INTERRUPTED)


#: Options that name a file to write.
_FILES = ("output", "drawing", "keep")


def _asked(given: dict[str, Any], *, with_request: bool) -> dict[str, Any]:
    if given["json"] and given["csv"]:
        raise WrongUse("--csv is not allowed with --json")
    return {"request": request_of(given), **given} if with_request else given


def _address(options: SimpleNamespace) -> str:
    return options.url or os.environ.get("BOREWRIGHT_CLIENT_URL") or DEFAULT_URL


def _show(name: str, options: SimpleNamespace, reply: Reply) -> None:
    """Print a reply in the form that the options ask for."""
    if options.json:
        print(printable(json.dumps(reply, indent=2, ensure_ascii=False)))
    elif options.csv:
        flat.write(sys.stdout, name, reply)
    else:
        sheets = FULL if getattr(options, "full", False) else TEXT
        print(sheets[name](all_printable(reply), paint_for(sys.stdout)))


def _refusal(error: RequestRefused) -> str:
    """What was refused, a line a field with what is probably meant and what is allowed."""
    if not error.errors:
        said = error.problem.get("detail") or error.problem.get("title", "")
        key = ": set BOREWRIGHT_CLIENT_KEY to a key of this service" if error.status == _KEY_NEEDED else ""
        return f"refused ({error.code}): {said}{key}"
    parameters = click.get_current_context().command.params
    lines = [
        f"  {place_of(fault.get('pointer') or '', parameters)}: {fault.get('detail', '')}{hint(fault)}"
        for fault in error.errors
    ]
    remedy = "" if error.errors[0].keys() & {"did_you_mean", "allowed"} else error.problem.get("remedy")
    return "\n".join([f"refused ({error.code}):", *lines, *([f"  {remedy}"] if remedy else [])])


def fail(said: str, code: int) -> int:
    """Say what is wrong; the exit code."""
    print(paint_for(sys.stderr).bad(printable(said)), file=sys.stderr)
    return code
