"""The whole command line."""

from __future__ import annotations

from collections.abc import Sequence

import click
from click.shell_completion import get_completion_class

from .. import __version__
from . import batch, compare, fit, hole, note, part, rework, short  # noqa: F401  (each makes its commands)
from .command import GROUP, fail
from .exit_codes import EXPLAINED, INTERRUPTED

SHELLS = ("bash", "zsh", "fish", "powershell")
_ENVIRONMENT = """\
environment:
  BOREWRIGHT_CLIENT_URL  address of the service (default http://127.0.0.1:8080)
  BOREWRIGHT_CLIENT_KEY  API key
  NO_COLOR               any text: no colours on a terminal either
"""


def _print_completion(context: click.Context, _: click.Parameter, shell: str | None) -> None:
    if shell:
        kind = get_completion_class(shell)
        click.echo(kind and kind(GROUP, {}, "borewright", "_BOREWRIGHT_COMPLETE").source())
        context.exit()


def run(arguments: Sequence[str] | None) -> int:
    """Run one command and return its exit code."""
    try:
        code: int = GROUP.main(arguments, prog_name="borewright", standalone_mode=False)
    except click.ClickException as error:
        error.show()
        return error.exit_code
    except click.Abort:
        return fail("interrupted", INTERRUPTED)
    return code or 0


GROUP.epilog = f"{EXPLAINED}\n{_ENVIRONMENT}"
GROUP.params += [
    click.Option(
        ["--completion"],
        type=click.Choice(SHELLS),
        expose_value=False,
        is_eager=True,
        callback=_print_completion,
        help="print what makes a shell complete this command",
    ),
]
click.version_option(__version__, prog_name="borewright-client", message="%(prog)s %(version)s")(GROUP)
