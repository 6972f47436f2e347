"""What a refusal adds to its fault."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


def hint(error: Mapping[str, Any]) -> str:
    """What is probably meant, and what is allowed."""
    meant, allowed = error.get("did_you_mean"), error.get("allowed")
    meant = [meant] if isinstance(meant, str) else meant
    said = f" Probably {' or '.join(map(str, meant))} is meant." if meant else ""
    return said + (f" Allowed: {', '.join(map(str, allowed))}." if allowed else "")
