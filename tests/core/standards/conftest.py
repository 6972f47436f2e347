"""How these tests reach the threads: by callout text, through the reader and the dispatch; and what they share."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from borewright.core import callout, standards
from borewright.core.model import Thread

sys.path.insert(0, str(Path(__file__).parent))  # for whole_threads
Resolve = Callable[[str], Thread]


@pytest.fixture(scope="session")
def resolved() -> Resolve:
    """Callout text -> thread with its limits."""
    return lambda text: standards.resolve(callout.read(text))
