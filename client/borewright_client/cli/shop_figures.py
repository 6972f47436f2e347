"""The option that sends the shop's own figures with a request: the file that `borewright fit --keep` wrote."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from .exit_codes import WrongUse


def shop_figures_option() -> click.Option:
    """The option of every command that asks for holes, drills, taps or allowances."""
    return click.Option(
        ["--shop-figures"],
        metavar="FILE",
        type=click.Path(),
        help="figures of the shop instead of the tables': what `borewright fit --keep` wrote",
    )


def kept_figures(name: str | None) -> dict[str, Any]:
    """The field of a request that holds the figures of a file, none where no file is named; a whole reply of `fit`
    will do.

    Raises: WrongUse, OSError.
    """
    if name is None:
        return {}
    try:
        found = json.loads(Path(name).read_text(encoding="utf-8-sig"))
    except ValueError as error:
        raise WrongUse(f"--shop-figures {name}: this is not JSON: {error}") from None
    found = found.get("shop_figures", found) if isinstance(found, dict) else found
    if not isinstance(found, dict) or "unit_system" not in found:
        raise WrongUse(f"--shop-figures {name}: no figures; `borewright fit MEASUREMENTS --keep {name}` writes them")
    return {"shop_figures": found}
