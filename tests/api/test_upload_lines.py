"""An upload to its lines: nothing is lost of one compressed in parts, and the longest line is read."""

from __future__ import annotations

import gzip

from borewright.api.batch.lines import BLOCK, LONGEST_LINE, blocks, lines
from every import every


@every("parts", [(b"one\n",), (b"one\n", b"two\n"), (b"one\n", b"", b"t" * (2 * BLOCK + 1), b"\nlast")])
def test_all_members_of_a_gzip_file_are_read(parts):
    """RFC 1952 2.2: a gzip file is a series of members, one after the other."""
    sent = b"".join(gzip.compress(part) for part in parts)
    for size in (1, 100, len(sent)):
        source = (sent[start : start + size] for start in range(0, len(sent), size))
        assert b"".join(blocks(source, compressed=True, most_bytes=0)) == b"".join(parts)


@every(("more", "read"), [(-1, True), (0, True), (1, False)])
def test_a_line_is_at_most_as_long_as_the_longest(more, read):
    line = b"a" * (LONGEST_LINE + more)
    for whole in ([line + b"\nb\n"], [line[:10], line[10:], b"\nb\n"]):
        assert list(lines(iter(whole))) == [line if read else None, b"b"]
    assert list(lines(iter([line]))) == [line if read else None]
