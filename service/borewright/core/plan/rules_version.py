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
#: As the house is formatted, a comment begins a line or follows two blanks.
_COMMENT = re.compile(rb"#(?:(?<=  #)|(?<=\n#))[^\n]*")
_QUOTES = b'"' * 3


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
    """The source of ``module`` without comments and empty lines, its docstrings empty.

    Three quotes stand around docstrings only.

    Source: none.
    """
    code = _COMMENT.sub(b"", b"\n" + b'""'.join(module.split(_QUOTES)[::2]))
    return b"\n".join(line for line in map(bytes.rstrip, code.split(b"\n")) if line)


def _read(modules: Iterable[bytes], tables_folder: Path) -> Iterator[Path]:
    named = {name.decode() for module in modules for name in _NAMES.findall(module)}
    beginnings = tuple(name for name in named if name.endswith("_"))
    files = tables_folder.rglob("*.csv")
    return (path for path in files if path.stem in named or path.stem.startswith(beginnings))
