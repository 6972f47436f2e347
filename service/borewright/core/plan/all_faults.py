"""All that is wrong with a request, told at once: a refusal is joined by what reading had not come to."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import wraps
from typing import Any, TypeVar

from borewright.core import standards
from borewright.core.errors import BorewrightError, Fault
from borewright.core.finishing.coat import coat
from borewright.core.hole import depths
from borewright.core.materials import part_material
from borewright.core.model import FinishInput, Hole, MaterialInput, Thread, ThreadCallout, Unit

Answer = TypeVar("Answer", bound=Callable[..., Any])


def telling_all(answer: Answer) -> Answer:
    """Let ``answer`` to a request, when it refuses, tell the faults of thread, finish and material together.

    Source: our own.
    """

    @wraps(answer)
    def told(request: Any) -> Any:
        try:
            return answer(request)
        except BorewrightError as error:
            error.join(
                faults(
                    thread=getattr(request, "thread", None),
                    finish=getattr(request, "finish", None),
                    material=getattr(request, "material", None),
                    hole=getattr(request, "hole", None),
                    strict=getattr(request, "strict", False),
                )
            )
            raise

    return told  # type: ignore[return-value]


def faults(
    *,
    thread: ThreadCallout | None,
    finish: FinishInput | None,
    material: MaterialInput | None,
    strict: bool,
    hole: Hole | None = None,
    unit: Unit = "in",
) -> Iterator[Fault]:
    """What is wrong with each of them by itself, at most one refusal each.

    Args: ``unit`` is that of the finish's figures where there is no thread; ``strict`` refuses an unknown material;
    of the ``hole`` a depth that is missing is told.

    Source: the modules that read them.
    """
    if thread is not None:
        yield from _of(lambda: _hole_in(standards.resolve(thread), hole))
        unit = thread.unit
    if finish is not None:
        yield from _of(lambda: coat(finish, unit=unit))
    if material is not None:
        yield from _of(lambda: part_material.find(material, strict=strict))


def _hole_in(thread: Thread, hole: Hole | None) -> None:
    if hole is not None:
        depths.full_thread_depth(thread, hole)


def _of(read: Callable[[], object]) -> tuple[Fault, ...]:
    try:
        read()
    except BorewrightError as error:
        return error.faults
    return ()
