"""What has come of a request: nothing is judged here, only its end is looked for."""

from __future__ import annotations

import re
from enum import Enum, auto

#: What may stand before the end of a head: more is given to the parser, which knows its limits.
_LONGEST_HEAD = 32_768
#: So much of a body is gathered; a longer one is read by a thread that may wait.
GATHERED_BODY = 16_384
_HEAD_END = b"\r\n\r\n"
_LONGEST_CHUNK_LINE = 8192
_LENGTH = re.compile(rb"\r\ncontent-length:[ \t]*([0-9]{1,12})[ \t]*\r\n", re.IGNORECASE)
_CODING = re.compile(rb"\r\ntransfer-encoding:[ \t]*([^\r\n]*?)[ \t]*\r\n", re.IGNORECASE)
_EXPECTS = re.compile(rb"\r\nexpect:", re.IGNORECASE)
#: One hole, and what balancers ask: with so small a body it is answered sooner than another thread takes it.
_SHORT = re.compile(rb"(POST /v1/hole-specs|GET /health/(live|ready)) HTTP/1\.1\r\n")
LONGEST_SHORT_BODY = 8192
#: Batches, and addresses that have to be decoded before it is known whether they are one.
_MAY_TAKE_LONG = re.compile(rb"[A-Z]+ [^ ?#]*(/batch[ ?#]|%)")
_CHUNK_SIZE = re.compile(rb"([0-9a-fA-F]+)[ \t]*[;\r]")


class Stage(Enum):
    """How far a request has come."""

    COMING = auto()
    #: All of it is here, and little is asked.
    SHORT = auto()
    #: All of it is here, or enough to see that it is none.
    WHOLE = auto()
    #: Whoever answers it waits for its caller.
    LONG = auto()


class Incoming:
    """The bytes of a request as they come. Args: ``left_over`` = what came with the request before."""

    def __init__(self, left_over: bytes = b"") -> None:
        self._came = bytearray(left_over)
        self._searched = 0
        #: Where the body begins, None while the head is coming.
        self._body: int | None = None
        #: Where it ends, None where it comes in chunks.
        self._end: int | None = 0
        self._chunk = 0
        self._short = self._long = self._expects = False

    def __len__(self) -> int:
        """How many bytes came."""
        return len(self._came)

    @property
    def missing(self) -> int | None:
        """Bytes that are still to come, None where only their end tells."""
        if self._end is not None:
            return max(0, self._end - len(self._came))
        return 0 if self._has_last_chunk() else None

    def add(self, received: bytes) -> None:
        """More came."""
        self._came += received

    @property
    def in_body(self) -> bool:
        """Whether the head is here."""
        return self._body is not None

    @property
    def content(self) -> bytes:
        """All that came."""
        return bytes(self._came)

    def stage(self) -> Stage:
        """How far it has come."""
        if self._body is None and not self._find_body():
            bare = self._came.count(b"\n") != self._came.count(b"\r\n")
            return Stage.WHOLE if bare or len(self._came) > _LONGEST_HEAD else Stage.COMING
        assert self._body is not None
        whole = len(self._came) >= self._end if self._end is not None else self._has_last_chunk()
        if self._long and (whole or self._end is None):
            return Stage.LONG
        if whole:
            return Stage.SHORT if self._short else Stage.WHOLE
        return Stage.LONG if self._expects or len(self._came) - self._body >= GATHERED_BODY else Stage.COMING

    def _find_body(self) -> bool:
        found = self._came.find(_HEAD_END, max(0, self._searched - 3))
        self._searched = len(self._came)
        if found < 0:
            return False
        head = bytes(self._came[: found + 2])
        self._body = self._end = self._chunk = found + len(_HEAD_END)
        coding, length = _CODING.search(head), _LENGTH.search(head)
        if coding is not None:  # any other than chunks is refused by the parser, which needs no more
            self._end = None if coding[1].lower().endswith(b"chunked") else self._end
        elif length is not None:
            self._end += int(length[1])
        self._long, self._expects = _MAY_TAKE_LONG.match(head) is not None, _EXPECTS.search(head) is not None
        plain = self._end is not None and self._end - self._body <= LONGEST_SHORT_BODY and not self._expects
        self._short = plain and _SHORT.match(head) is not None
        return True

    def _has_last_chunk(self) -> bool:
        """Whether the chunks have ended, or a line is none that tells a chunk's size."""
        while (line_end := self._came.find(b"\r\n", self._chunk)) >= 0:
            size = _CHUNK_SIZE.match(self._came, self._chunk)
            if size is None:
                return True
            if int(size[1], 16) == 0:
                return self._came.find(_HEAD_END, line_end) >= 0
            after = line_end + 2 + int(size[1], 16) + 2
            if after > len(self._came):
                return False
            self._chunk = after
        return len(self._came) - self._chunk > _LONGEST_CHUNK_LINE
