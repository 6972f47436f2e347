"""API keys: kept as hashes in a file that may change while the service runs. `python -m borewright.api.keys NAME`.

A line is ``name:sha256hex``; empty lines and lines that begin with ``#`` are skipped; a name may stand twice, so that
its next key can be handed out before the last one goes. A key that is made here is 32 random bytes: nobody finds one
of 2**256 by trying, however fast SHA-256 is, so that a slow hash, which each request would pay for, would add
nothing. That does not hold for passwords: a key of one's own has at least 32 characters, at least ten of them
different, and a shorter one is nobody's, whatever the file says.

A key counts as long as the file says so: a line that is none spoils only itself, and where the file is gone or cannot
be read no key counts.
"""

from __future__ import annotations

import argparse
import hashlib
import hmac
import logging
import os
import re
import secrets
import sys
from collections.abc import Sequence
from pathlib import Path
from threading import Lock

_LINE = re.compile(r"([A-Za-z0-9._-]{1,64}):([0-9a-f]{64})")
_RANDOM_BYTES = 32
_KEY = re.compile(r"[!-~]{32,512}")  # what a header can carry
_FEWEST_CHARACTERS = 10
_log = logging.getLogger("borewright")


class KeysError(Exception):
    """The file of keys cannot be used; the text says why, and never a key or a hash."""


class Keys:
    """The keys of a file, read again when it changes.

    Raises: KeysError where the file cannot be used at start; where it cannot be read later, no key counts.
    """

    def __init__(self, path: str) -> None:
        self._path, self._lock = Path(path), Lock()
        self._seen: _Stamp | None = _stamp(self._path)
        self._hashes = _read(self._path)
        if not self._hashes:
            raise KeysError(f"the file of API keys {self._path} holds no key")

    def name_of(self, key: str) -> str | None:
        """Whose key it is, None where it is nobody's; takes the same time wherever they differ."""
        self._refresh()
        if not _KEY.fullmatch(key):
            return None
        digest = _digest(key)
        found = None
        for name, known in self._hashes:
            if hmac.compare_digest(digest, known):
                found = name
        return found

    def _refresh(self) -> None:
        with self._lock:
            try:
                stamp = _stamp(self._path)
                if stamp != self._seen:
                    self._hashes, self._seen = _read(self._path), stamp
                    if not self._hashes:
                        _log.warning("the file of API keys %s holds no key; none counts", self._path)
            except KeysError as error:
                if self._seen is not None:
                    _log.warning("%s; no key counts", error)
                self._hashes, self._seen = (), None


_Stamp = tuple[int, int, int, int]


def _stamp(path: Path) -> _Stamp:
    try:
        found = os.stat(path)
    except OSError as error:
        raise KeysError(f"the file of API keys {path} cannot be read: {error.strerror}") from None
    return found.st_mtime_ns, found.st_ctime_ns, found.st_size, found.st_ino


def _read(path: Path) -> tuple[tuple[str, str], ...]:
    """Names and hashes; a line that is none of ours is told by its number and left out."""
    try:
        lines = path.read_text(encoding="utf-8-sig", errors="replace").splitlines()
    except OSError as error:
        raise KeysError(f"the file of API keys {path} cannot be read: {error.strerror}") from None
    found = []
    for number, line in enumerate(lines, 1):
        if not line.strip() or line.startswith("#"):
            continue
        read = _LINE.fullmatch(line.strip())
        if read is None:
            _log.warning("line %d of the file of API keys %s is not name:sha256 and is left out", number, path)
            continue
        found.append((read[1], read[2]))
    return tuple(found)


def _digest(key: str) -> str:
    return hashlib.sha256(key.encode()).hexdigest()


def line_of(name: str, key: str) -> str:
    """The line for the file. Raises: KeysError where the name cannot be used, or the key is weak."""
    if not _KEY.fullmatch(key) or len(set(key)) < _FEWEST_CHARACTERS:
        raise KeysError(
            "a key has 32 to 512 printable ASCII characters without spaces,"
            f" at least {_FEWEST_CHARACTERS} of them different"
        )
    line = f"{name}:{_digest(key)}"
    if not _LINE.fullmatch(line):
        raise KeysError("a name has 1 to 64 letters, digits, dots, hyphens and underscores")
    return line


def main(arguments: Sequence[str] | None = None) -> int:
    """Make a key, or hash one from standard input; print the line for the file."""
    parser = argparse.ArgumentParser(prog="borewright-keys", description="Makes a line for the file of API keys.")
    parser.add_argument("name", help="whose key it is: letters, digits, dot, hyphen, underscore")
    parser.add_argument("--stdin", action="store_true", help="hash the key on standard input instead of making one")
    given = parser.parse_args(arguments)
    key = sys.stdin.readline().strip() if given.stdin else secrets.token_urlsafe(_RANDOM_BYTES)
    try:
        line = line_of(given.name, key)
    except KeysError as error:
        parser.error(str(error))
    if not given.stdin:
        print(f"the key, shown once: {key}", file=sys.stderr)
    print(line)
    return 0


if __name__ == "__main__":
    sys.exit(main())
