"""The version of the rules: a fingerprint of the domain's code, without its prose, and of the tables that it reads."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from borewright import tables
from borewright.core.caches import read_once

_CORE = Path(__file__).parent.parent
_NAMES = re.compile(rb'"([a-z0-9_]+)"')
#: As the house is formatted: a docstring stands on lines of its own, a comment does or follows two blanks.
_DOCSTRING = re.compile(rb'\n( *)r?"{3}.*?"{3}(?=\n)', re.DOTALL)
_COMMENT = re.compile(rb"\n *#[^\n]*| {2}#[^\n]*")


@read_once
def version() -> str:
    """Fingerprint of the rules: the ``rules_version`` of a reply.

    Source: none.
    """
    return fingerprint(_CORE, tables.FOLDER)


def fingerprint(core: Path, tables_folder: Path) -> str:
    """Fingerprint of the code of all modules in ``core`` and of those tables in ``tables_folder`` that they name.

    Where a module or a table lies does not count, nor what docstrings and comments say. A name that ends in ``_``
    stands for all tables that begin with it.

    Source: none.
    """
    modules = _modules(core)
    read = [path.read_bytes() for path in _read(modules, tables_folder)]
    digests = sorted(hashlib.sha256(content).digest() for content in (*modules, *read))
    return hashlib.sha256(b"".join(digests)).hexdigest()[:12]


def tables_read(core: Path, tables_folder: Path) -> frozenset[str]:
    """Names of the tables in ``tables_folder`` that a module in ``core`` reads.

    Source: none.
    """
    return frozenset(path.stem for path in _read(_modules(core), tables_folder))


def _modules(core: Path) -> list[bytes]:
    return [without_prose(path.read_bytes()) for path in core.rglob("*.py")]


def without_prose(module: bytes) -> bytes:
    """The source of ``module`` without comments, its docstrings empty.

    Source: none.
    """
    return _COMMENT.sub(b"", _DOCSTRING.sub(rb'\n\1""', b"\n" + module))


def _read(modules: Iterable[bytes], tables_folder: Path) -> Iterator[Path]:
    named = {name.decode() for module in modules for name in _NAMES.findall(module)}
    beginnings = tuple(name for name in named if name.endswith("_"))
    files = tables_folder.rglob("*.csv")
    return (path for path in files if path.stem in named or path.stem.startswith(beginnings))
