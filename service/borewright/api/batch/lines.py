"""From an upload to its lines: blocks as they are received, inflated where they are compressed, cut at line ends."""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Iterator
from typing import Protocol

from borewright.api.problems import Refusal

#: Most bytes that an upload is inflated to, or read from a file, at a time.
BLOCK = 65536
#: As much as the server receives at once. An upload that stalls loses less than that.
_RECEIVED = 8192
#: Longest line that is read; the rest of a longer one is skipped.
LONGEST_LINE = 131_072
_GZIP = 31  # zlib's word for a gzip header and 32 KiB of window


class Readable(Protocol):
    """What an upload is read from."""

    def read(self, size: int, /) -> bytes:
        """At most ``size`` bytes, none at the end."""


class Broken(Exception):
    """The upload broke off, or cannot be inflated; the text says after how many bytes."""


def blocks(source: Iterable[bytes], *, compressed: bool, most_bytes: int) -> Iterator[bytes]:
    """The bytes of an upload, at most 64 KiB at a time.

    Args: ``source`` what was received; ``most_bytes`` 0 = no limit, counted after inflation.

    Raises: Broken; Refusal (413) past ``most_bytes``.
    """
    seen = 0
    for block in _inflated(source) if compressed else source:
        seen += len(block)
        if most_bytes and seen > most_bytes:
            raise Refusal("batch_too_large", f"What is sent here has at most {most_bytes} bytes after inflation.")
        yield block


def received(stream: Readable) -> Iterator[bytes]:
    """An upload as it arrives. Raises Broken where it breaks off."""
    seen = 0
    while True:
        try:
            block = stream.read(_RECEIVED)
        except Exception as error:  # each server and its parser has an exception of its own for a lost client
            raise Broken(f"the upload broke off after {seen} bytes ({type(error).__name__})") from error
        if not block:
            return
        seen += len(block)
        yield block


def _inflated(source: Iterable[bytes]) -> Iterator[bytes]:
    inflate = zlib.decompressobj(_GZIP)
    seen = 0
    for block in source:
        waiting = block
        while waiting:
            if inflate.eof:
                inflate = zlib.decompressobj(_GZIP)  # a gzip file may have several members
            try:
                made = inflate.decompress(waiting, BLOCK)
            except zlib.error:
                raise Broken(f"the gzip data are damaged after {seen} inflated bytes") from None
            seen += len(made)
            waiting = inflate.unused_data if inflate.eof else inflate.unconsumed_tail
            if made:
                yield made
    if not inflate.eof:
        while made := inflate.decompress(inflate.unconsumed_tail, BLOCK):
            seen += len(made)
            yield made
    if not inflate.eof:
        raise Broken(f"the gzip data break off after {seen} inflated bytes")


def lines(source: Iterator[bytes]) -> Iterator[bytes | None]:
    """Lines without their ends; None stands for a line that was too long, and was skipped.

    What follows the last line end is a line too, also where the upload broke off; then Broken is raised after it.
    """
    rest, skipping, broken = b"", False, None
    try:
        for block in source:
            found = (rest + block).split(b"\n")
            rest = found.pop()
            for line in found:
                yield None if skipping or len(line) > LONGEST_LINE else line
                skipping = False
            if len(rest) > LONGEST_LINE:
                rest, skipping = b"", True
    except Broken as error:
        broken = error
    if skipping or rest:
        yield None if skipping else rest
    if broken is not None:
        raise broken
