"""Bounds on the work of a batch: processor time, the answer of a document, items and rubbish in a stream."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

from borewright.api.problems import Refusal
from borewright.api.strict_json import OF_REQUEST, MostValues
from borewright.core.errors import BorewrightError

from .answers import Result

Item = TypeVar("Item")
#: So many items double the processor time of a request.
ITEMS_A_BUDGET = 25
#: Objects and lists of an item, and fields and items of its lists, on average over a batch.
_OF_ITEM = MostValues(20, 200)
#: Bytes of an item's answer, on average over a batch.
_ANSWER_BYTES = 65_536
#: Lines in a row that are no requests, after which an upload is not read on.
MOST_RUBBISH = 1000
_RUBBISH = frozenset(
    {
        "body_not_object",
        "cell_is_a_date",
        "csv_unreadable",
        "field_missing",
        "field_type_wrong",
        "field_unknown",
        "json_duplicate_key",
        "json_not_utf8",
        "json_number_not_finite",
        "json_too_deep",
        "json_unreadable",
        "line_too_long",
        "too_much_work",
    }
)


def values_of(items: int, one: MostValues = OF_REQUEST) -> MostValues:
    """How much a batch of so many items may hold as one JSON document. Args: ``one`` is what a single item may hold."""
    times = one.containers // OF_REQUEST.containers
    return MostValues(*(each * times * items + most for each, most in zip(_OF_ITEM, one, strict=True)))


class Time:
    """The processor time of a request, from now on: so much for itself, and a share of it for each item to work out.

    What is no item earns none: rubbish, blank lines, holes that cannot be read.

    Args: ``milliseconds`` of the request; ``shares`` of an item, in those of a hole.
    """

    def __init__(self, milliseconds: int, shares: float = 1) -> None:
        self._milliseconds, self._an_item = milliseconds, milliseconds * shares / ITEMS_A_BUDGET
        self._began, self._items = time.thread_time(), 0

    def allow(self, items: int) -> None:
        """So many more items are worked out."""
        self._items += items

    def of_results(self, results: Iterator[Result]) -> Iterator[Result]:
        """The results of a batch, as long as there is time. Raises Refusal ``too_much_work``."""
        for result in results:
            yield result
            self.allow(result.code not in _RUBBISH)
            self.check()

    def of_each(self, found: Iterable[Item]) -> Iterator[Item]:
        """Blocks, rows or holes, as long as there is time for what is done with each. Raises as :meth:`check`."""
        for one in found:
            yield one
            self.check()

    @property
    def left_s(self) -> float:
        """Seconds that are left, none when the time is over."""
        most = self._milliseconds + self._an_item * self._items
        return max(0.0, most / 1000 - (time.thread_time() - self._began))

    def check(self) -> None:
        """Refuse what took too long. Raises Refusal ``too_much_work``."""
        if not self.left_s:
            raise Refusal(
                "too_much_work",
                f"A request has {self._milliseconds} ms of processor time, and {self._an_item:g} ms more for each"
                f" item; it took longer, with {self._items} items worked out. Send fewer items or shorter stock lists"
                " at once,"
                " no empty lines, and what was not answered in another request.",
            )


def check_answer(size: int, most_items: int, pointer: str = "/items") -> None:
    """Refuse an answer that would be too long to be gathered before it is sent: twice what full answers come to.

    Args: ``size`` in bytes so far; ``most_items`` that a batch may have; ``pointer`` to them.

    Raises: Refusal ``too_much_work``.
    """
    if size > _ANSWER_BYTES * most_items:
        raise Refusal(
            "too_much_work",
            f"The answer is longer than {_ANSWER_BYTES * most_items} bytes. Send fewer items or shorter stock lists at"
            " once, ask for `detail` routing, or send a line an item: such a batch streams.",
            pointer=pointer,
        )


def at_most(items: Iterator[Item], most: int) -> Iterator[Item]:
    """The items of a stream. Args: ``most`` 0 = no limit. Raises: Refusal ``batch_too_large`` past it."""
    for index, item in enumerate(items):
        if most and index >= most:
            raise Refusal("batch_too_large", f"A batch has at most {most} items.")
        yield item


def without_rubbish(results: Iterator[Result]) -> Iterator[Result]:
    """The results of a stream, until a thousand lines in a row are no requests.

    Raises: Refusal ``too_much_work``.
    """
    rubbish = 0
    for result in results:
        rubbish = rubbish + 1 if result.code in _RUBBISH else 0
        yield result
        if rubbish >= MOST_RUBBISH:
            raise Refusal(
                "too_much_work",
                f"{rubbish} lines in a row are no requests; what follows was not read. Send an item a line, as"
                " application/x-ndjson or text/csv says it.",
            )


def ending_well(results: Iterator[Result], refused: Callable[[BorewrightError | Refusal], Result]) -> Iterator[Result]:
    """The results of a batch whose answer has begun: what ends it is its last result."""
    try:
        yield from results
    except Refusal as error:
        yield refused(error)
