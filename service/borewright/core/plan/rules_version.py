"""The version of the rules: a fingerprint of the domain's own code and of the tables that it reads."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from borewright import tables
from borewright.core.caches import read_once

_CORE = Path(__file__).parent.parent
_NAMES = re.compile(rb'"([a-z0-9_]+)"')


@read_once
def version() -> str:
    """Fingerprint of the rules: the ``rules_version`` of a reply.

    Source: none.
    """
    return fingerprint(_CORE, tables.FOLDER)


def fingerprint(core: Path, tables_folder: Path) -> str:
    """Fingerprint of the contents of every module in ``core`` and of every table that one of them names.

    Where a module or a table lies does not count. A name that ends in ``_`` stands for all tables that begin with it.

    Source: none.
    """
    modules = [path.read_bytes() for path in core.rglob("*.py")]
    named = {name.decode() for module in modules for name in _NAMES.findall(module)}
    read = [path.read_bytes() for path in _read(tables_folder.rglob("*.csv"), named)]
    digests = sorted(hashlib.sha256(content).digest() for content in (*modules, *read))
    return hashlib.sha256(b"".join(digests)).hexdigest()[:12]


def _read(files: Iterable[Path], named: set[str]) -> Iterator[Path]:
    beginnings = tuple(name for name in named if name.endswith("_"))
    return (path for path in files if path.stem in named or path.stem.startswith(beginnings))
