"""How the clients name themselves."""

from __future__ import annotations

import platform

__version__ = "0.1.0"


def user_agent(library: str, version: str) -> str:
    """The ``User-Agent`` of a client that sends through a library."""
    return f"borewright-client/{__version__} {library}/{version} python/{platform.python_version()}"
