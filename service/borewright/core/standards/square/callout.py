"""Square threads: no current standard defines them, so they are taken by the dimensions stated."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.callout.inch_size import read_inch_size
from borewright.core.callout.inch_thread import SHAPE, fill, threads_per_inch
from borewright.core.callout.starts import starts_of
from borewright.core.callout.text import NUMBER, number, unreadable
from borewright.core.callout.thread_as_written import Written, finish, refuse_unused
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, shortened
from borewright.core.model import ThreadCallout, Unit
from borewright.core.rounding import plain

_DEPTH = rf"(?:[-| ]{{1,3}}DEPTH ?(?P<depth>{NUMBER}))?"
_METRIC = re.compile(
    rf"(?P<size>{NUMBER}) ?X ?(?:(?P<lead>{NUMBER}) ?\( ?P ?(?P<of_lead>{NUMBER}) ?\)|(?P<pitch>{NUMBER})){_DEPTH}"
)
_INCH = re.compile(SHAPE + _DEPTH)


def parse(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from ``text``, a callout whose ``word`` SQUARE is already cut out: ``1-4 depth .125`` or ``40x7
    depth 3.5``.

    Raises:
        CalloutError: the rest is not diameter and pitch.
    """
    folded = text.upper()
    of_mm = _METRIC.fullmatch(folded)
    found = of_mm or _INCH.fullmatch(folded)
    if found is None:
        raise unreadable("A square thread is written 1-4 SQUARE DEPTH .125 (inches) or SQUARE 40x7 DEPTH 3.5 (mm).")
    if of_mm:
        written.unit, written.size = "mm", of_mm["size"]
        written.pitch = number(of_mm["pitch"] or of_mm["of_lead"])
        if of_mm["lead"]:
            written.lead = number(of_mm["lead"])
    else:
        written.unit = "in"
        fill(found, written)
    if found["depth"]:
        written.extra.append(("depth", number(found["depth"])))


def settle(system: str, written: Written) -> ThreadCallout:
    """The one square thread of the dimensions ``written``, refused where one is missing.

    Args:
        system: ``square``.
        written: diameter, pitch and the item ``depth`` of ``extra``, as read from text or given one by one.

    Raises:
        CalloutError: a dimension is missing, or a class or series is given.

    Source: none; the callout's own dimensions.
    """
    refuse_unused(written, "series", "thread_class", title="a square thread")
    unit = written.unit
    assert unit is not None
    missing = [
        name
        for name, given in (
            ("pitch", written.pitch is not None or written.threads_per_inch is not None),
            ("depth", "depth" in dict(written.extra)),
        )
        if not given
    ]
    if missing:
        raise CalloutError(
            "thread_field_missing",
            f"No current standard defines square threads, so {' and '.join(missing)} must be stated: "
            "1-4 SQUARE DEPTH .125.",
            pointer=f"/{missing[0]}",
        )
    diameter = _diameter(written, unit)
    tpi = threads_per_inch(written) if unit == "in" else None
    pitch = 1 / tpi if tpi is not None else written.pitch
    assert pitch is not None
    return finish(
        system,
        written,
        size=plain(diameter),
        diameter=diameter,
        unit=unit,
        pitch=None if tpi is not None else pitch,
        threads_per_inch=tpi,
        starts=starts_of(written, pitch=pitch),
    )


def _diameter(written: Written, unit: Unit) -> Decimal:
    size = written.size
    diameter = number(size) if unit == "mm" else read_inch_size(size).diameter_in
    if not diameter:
        where = "mm" if unit == "mm" else "inches"
        raise CalloutError("thread_size_unknown", f"{shortened(size)!r} is not a diameter in {where}.", pointer="/size")
    return Decimal(plain(diameter))
