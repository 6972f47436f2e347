"""British Association threads BA (BS 93)."""

from __future__ import annotations

import re

from borewright.core.callout import listed_sizes
from borewright.core.callout.text import NUMBER, number, unreadable
from borewright.core.callout.thread_as_written import Written, finish, refuse_unused
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, shortened
from borewright.core.model import ThreadCallout
from borewright.core.standards.family import near_sizes
from borewright.core.standards.whitworth.callout import take_grade

from .thread import sizes

_SHAPE = re.compile(rf"(?:(?:#|NO\.?) ?)?(?P<size>[0-9]{{1,2}})(?:(?: ?[-X|] ?| )(?P<pitch>{NUMBER}))?")


def parse(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from ``text``, a callout whose ``word`` BA is already cut out.

    Raises:
        CalloutError: the rest is not a BA number.
    """
    found = _SHAPE.fullmatch(take_grade(text.upper(), written))
    if found is None:
        raise unreadable(f"{text.replace('|', ' ')!r} is not a BA number, 0 to 16.")
    written.size = found["size"]
    written.pitch = number(found["pitch"]) if found["pitch"] else None


def settle(system: str, written: Written) -> ThreadCallout:
    """The one BA thread that was ``written``, settled or refused.

    Args:
        system: ``british_association``.
        written: fields as read from text or given one by one; ``close`` and ``normal`` are classes of the mate.

    Raises:
        CalloutError: unknown number, pitch or class.

    Source: BS 93 (numbers 0 to 16; one class of nut).
    """
    refuse_unused(written, "starts", "lead", "series", title="BA")
    if written.thread_class is not None and written.thread_class.casefold() not in ("close", "normal"):
        raise CalloutError(
            "thread_class_unknown",
            f"BA has no class {shortened(written.thread_class)!r}: nuts have one class, bolts are close or normal.",
            pointer="/class",
            allowed=("close", "normal"),
        )
    known = sizes()
    label = written.size.upper().removesuffix("BA").lstrip("#").strip()
    label = str(int(label)) if re.fullmatch("[0-9]{1,3}", label) else label
    if label not in known:
        older = " Numbers 17 to 25 stand in older lists, outside BS 93:2008." if label.isdigit() else ""
        raise CalloutError(
            "thread_size_unknown",
            f"BS 93 has no {shortened(label)} BA.{older}",
            pointer="/size",
            allowed=tuple(known),
            did_you_mean=tuple(f"{one} BA" for one in near_sizes(shortened(label), known)),
        )
    said = len(written.assumptions)
    pitch = listed_sizes.metric_pitch("BA", written, label, known[label].pitches_mm, lambda one, _: f"{one} BA")
    del written.assumptions[said:]  # the standard's own designation has no pitch
    return finish(
        system,
        written,
        size=label,
        diameter=known[label].diameter,
        unit="mm",
        pitch=pitch,
        thread_class=written.thread_class.casefold() if written.thread_class else None,
    )
