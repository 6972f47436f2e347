"""Writes ``borewright.1``, the manual page of the command, from the command itself: ``python client/man/make.py``."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import click
from borewright_client import __version__
from borewright_client.cli.program import GROUP

PAGE = Path(__file__).with_name("borewright.1")


def page() -> str:
    """The page in the language of man(7)."""
    group = click.Context(GROUP, info_name="borewright", **GROUP.context_settings)
    lines = [
        f'.TH BOREWRIGHT 1 "" "borewright-client {__version__}" "User Commands"',
        ".SH NAME",
        r"borewright \- tapped holes: from a thread callout to the shop floor",
        ".SH SYNOPSIS",
        *(_synopsis(name, command) for name, command in GROUP.commands.items()),
        ".SH OPTIONS",
        *_options(GROUP, group),
        ".SH COMMANDS",
    ]
    for name, command in GROUP.commands.items():
        lines += _command(command, click.Context(command, info_name=name, parent=group))
    for heading, _, text in (part.partition(":\n") for part in (GROUP.epilog or "").strip().split("\n\n")):
        lines += [f".SH {heading.upper()}", *_as_it_stands(text)]
    return "\n".join(lines) + "\n"


def _synopsis(name: str, command: click.Command) -> str:
    arguments = " ".join(
        _plain(part.human_readable_name) for part in command.params if isinstance(part, click.Argument)
    )
    return f".B borewright {name}\n[\\fIoptions\\fP] {arguments}\n.br"


def _command(command: click.Command, context: click.Context) -> Iterator[str]:
    yield f".SS {context.info_name}"
    yield _plain(command.help or "")
    yield from _options(command, context)
    for part in (command.epilog or "").strip().split("\n\n"):
        if not part.startswith("exit codes"):
            yield from (".PP", *_as_it_stands(part))


def _options(command: click.Command, context: click.Context) -> Iterator[str]:
    for parameter in command.get_params(context):
        if isinstance(parameter, click.Option) and (record := parameter.get_help_record(context)):
            called, meaning = record
            yield from (".TP", f"\\fB{_plain(called)}\\fP", _plain(meaning))


def _as_it_stands(text: str) -> Iterator[str]:
    yield from (".nf", *map(_plain, text.splitlines()), ".fi")


def _plain(text: str) -> str:
    """A text of which man takes nothing for its own language."""
    escaped = text.replace("\\", r"\e").replace("-", r"\-").replace("\n", " ")
    return f"\\&{escaped}" if escaped.startswith((".", "'")) else escaped


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
