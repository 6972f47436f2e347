"""The short commands: thread, drill, allowance, tap, catalog."""

from __future__ import annotations

from types import SimpleNamespace

import click

from ..client import CATALOGS, Client, Reply
from .command import command, option


@command(
    "thread", "limits of size of a thread callout", request="thread",
    examples=("M8x1.25-6H", '"1/2-13 UNC-2B" --units metric', '"1/4-20 UNC-2B" --engagement "0.5 in" --csv'),
)  # fmt: skip
def thread(client: Client, options: SimpleNamespace) -> Reply:
    """Limits of size."""
    return client.resolve_thread(**options.request)


@command(
    "drill", "drill for a thread, and others that would do", request="drill",
    examples=('"1/2-13 UNC-2B"', "M10 --percent 65 --material 304", '"#10-32 UNF-2B" --objective acceptance'),
)  # fmt: skip
def drill(client: Client, options: SimpleNamespace) -> Reply:
    """The drill and others."""
    return client.recommend_drill(**options.request)


@command(
    "allowance", "limits before a coating, plating or heat treatment",
    request="allowance", examples=('"1/4-28 UNF-2B" "ASTM B633 Fe/Zn 5"', 'M10 "ISO 10684"'),
)  # fmt: skip
def allowance(client: Client, options: SimpleNamespace) -> Reply:
    """Limits before a finish."""
    return client.allowance(**options.request)


@command(
    "tap", "tap for a thread, or with --decode what a marking says",
    option("--decode", is_flag=True, help="read the text as a marking etched on a tap's shank"),
    request="tap", examples=("M8x1.25-6H --material 304", '--decode "1/2-13 NC HSS G H3"'),
)  # fmt: skip
def tap(client: Client, options: SimpleNamespace) -> Reply:
    """The tap, or with ``--decode`` what a marking says."""
    if options.decode:
        asked = {name: options.request[name] for name in ("unit_system", "explain") if name in options.request}
        return client.decode_tap(options.request["thread"], **asked)
    return client.recommend_tap(**options.request)


@command(
    "catalog", "what the tables hold",
    click.Argument(["name"], type=click.Choice(CATALOGS), metavar="NAME"),
    examples=("materials", "thread-systems", "drills --csv"), more=f"NAME is one of {', '.join(CATALOGS)}.\n",
)  # fmt: skip
def catalog(client: Client, options: SimpleNamespace) -> Reply:
    """A catalogue."""
    return client.catalog(options.name)
