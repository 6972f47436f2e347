"""Goals 3, 4 and 6: NDJSON batches against the JSON floor, their memory, and that cost grows with the items only.

Rates are items a second of processor time of the one worker that answers, so whoever asks on the same machine does not
count.
"""

from __future__ import annotations

import http.client
import json
import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread

import routings
from rows import Row, at_least, at_most
from serving import bare, cpu_seconds, memory_mib, serving, workers

ADDRESS = "/v1/hole-specs/batch"
PER_CHUNK = 400
THREADS = ("3/8-16 UNC-2B", "1/2-13 UNC-2B", "1/4-20 UNC-2B", "5/16-24 UNF-2B", "#10-32 UNF-2B", "5/8-11 UNC-2B", "M8")
MATERIALS = ("4140", "6061-T6", "304", "1018")
FINISHES = (None, "ASTM B633 Fe/Zn 5", "ASTM B633 Fe/Zn 8")
DEPTHS = 4000
#: What a good answer to an item has, once.
MEANT = b'"status":"ok"'


@dataclass(frozen=True)
class Batch:
    """What a batch took. ``grown_mib`` is how far it moved the worker's peak of memory."""

    items: int
    seconds: float
    grown_mib: float

    @property
    def per_second(self) -> float:
        return self.items / self.seconds


def line(number: int) -> bytes:
    """A hole of Kestrel Ridge Pumps that no other number has."""
    depth = f"{10 + number * 37 % DEPTHS / 100:.2f} mm"
    hole = {"id": f"KRP-{number}", "thread": THREADS[number % 7], "hole": {"type": "blind", "full_thread_depth": depth}}
    hole |= {"material": MATERIALS[number % 4], "finish": FINISHES[number % 3]}
    return json.dumps({name: value for name, value in hole.items() if value is not None}).encode() + b"\n"


def lines(count: int, *, unique: float, first: int) -> list[bytes]:
    """Lines of which a share is different, in a mixed order that is the same every time."""
    different = [line(first + number) for number in range(max(1, int(count * unique)))]
    if len(different) == count:
        return different
    return random.Random(count).choices(different, k=count)


def post(port: int, asked: Iterable[bytes]) -> Iterator[bytes]:
    """Lines of the answer, in blocks of whole lines; it is read while the batch is made and sent."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=600)
    connection.putrequest("POST", ADDRESS)
    for name, value in {"Content-Type": "application/x-ndjson", "Transfer-Encoding": "chunked"}.items():
        connection.putheader(name, value)
    connection.endheaders()
    sending = Thread(target=_send, args=(connection, iter(asked)))
    sending.start()
    answer, rest = connection.getresponse(), b""
    while block := answer.read(1 << 20):
        whole, mark, rest = (rest + block).rpartition(b"\n")
        yield whole + mark
    assert not rest, "the answer broke off within a line"
    sending.join()
    connection.close()


def _send(connection: http.client.HTTPConnection, asked: Iterator[bytes]) -> None:
    while block := b"".join(islice(asked, PER_CHUNK)):
        connection.send(b"%X\r\n%b\r\n" % (len(block), block))
    connection.send(b"0\r\n\r\n")


def answered(port: int, worker: int, asked: list[bytes]) -> Batch:
    memory, before = memory_mib(worker, "VmHWM"), cpu_seconds(worker)
    assert sum(block.count(MEANT) for block in post(port, asked)) == len(asked)
    return Batch(len(asked), cpu_seconds(worker) - before, memory_mib(worker, "VmHWM") - memory)


def batches(*, items: int, port: int) -> list[Row]:
    """Batches of ``items``, and of a tenth of them, on one worker."""
    with serving("borewright.api.wsgi:app", port, workers=1) as service:
        (worker,) = workers(service.pid)
        replies = b"".join(post(port, lines(200, unique=1, first=10**6)))
        repeated = answered(port, worker, lines(items, unique=0.05, first=0))
        few = answered(port, worker, lines(items // 40, unique=1, first=2 * 10**6))
        many = answered(port, worker, lines(items // 4, unique=1, first=3 * 10**6))
        mixed = [(name, answered(port, worker, [*bodies]).per_second, goal) for name, bodies, goal in _mixes(items)]
    floor = _floor(replies, items // 4, port + 1)
    growth = many.seconds / few.seconds / (many.items / few.items)
    return [
        at_least("NDJSON, 5 % different / JSON floor", repeated.per_second, floor.per_second, 1.0, "/s a core"),
        at_least("NDJSON, all different / 4,000", many.per_second, 4000, 1.0, "/s a core"),
        *(at_least(f"NDJSON, {name} / {goal:,}", rate, goal, 1.0, "/s a core") for name, rate, goal in mixed),
        at_most("peak of memory moves, MiB / 32", f"{many.grown_mib:.0f} MiB", many.grown_mib / 32, 1),
        at_most("cost of an item, ten times the items / once", f"{many.items:,} / {few.items:,} items", growth, 1.1),
    ]


def _mixes(items: int) -> Iterator[tuple[str, Iterator[bytes], int]]:
    """Name, lines and lines that a core should answer in a second."""
    yield "routing", routings.lines(routings.routing(items // 4)), 3500
    yield "combinations", routings.lines(routings.crossed(items // 10)), 1200
    yield "other ids", routings.lines(routings.other_ids(items)), 20_000


def _floor(replies: bytes, items: int, port: int) -> Batch:
    with TemporaryDirectory() as folder:
        kept = Path(folder) / "replies"
        kept.write_bytes(replies)
        with bare(port, workers=1, FLOOR_REPLIES=str(kept)) as service:
            (worker,) = workers(service.pid)
            return answered(port, worker, lines(items, unique=0.05, first=0))
