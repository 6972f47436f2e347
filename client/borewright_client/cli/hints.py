"""What a refusal adds to its fault."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

#: Of more than these nothing is probable.
_FEW = 3


def _listed(meant: Sequence[Any]) -> str:
    *first, last = map(str, meant)
    return f"{', '.join(first)} or {last}"


def hint(error: Mapping[str, Any]) -> str:
    """What is probably meant, and what is allowed."""
    meant, allowed = error.get("did_you_mean"), error.get("allowed")
    meant = [meant] if isinstance(meant, str) else meant
    said, detail = "", error.get("detail", "")
    if meant and not all(str(one) in detail for one in meant):  # some details name it themselves
        few = len(meant) <= _FEW
        said = f" Probably {' or '.join(map(str, meant))} is meant." if few else f" It can be {_listed(meant)}."
    return said + (f" Allowed: {', '.join(map(str, allowed))}." if allowed else "")
