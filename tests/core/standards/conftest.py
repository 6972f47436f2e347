"""How these tests reach the threads: by callout text, through the reader and the dispatch."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from borewright.core import callout, standards
from borewright.core.model import Thread

Resolve = Callable[[str], Thread]


@pytest.fixture(scope="session")
def resolved() -> Resolve:
    """Callout text -> thread with its limits."""
    return lambda text: standards.resolve(callout.read(text))
