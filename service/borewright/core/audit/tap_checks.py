"""The planned tap against the thread, the method and the hole."""

from __future__ import annotations

from collections.abc import Iterator

from borewright.core.model import Thread
from borewright.core.quantity_text import length
from borewright.core.rounding import plain
from borewright.core.standards.systems import traits

from .case import AuditCase, ReadTap
from .findings import Finding


def check(case: AuditCase) -> Iterator[Finding]:
    """Findings on which thread the taps of ``case`` cut, and by what style.

    Source: definitions of the thread systems; styles by hole are common practice.
    """
    for tap in (case.tap, case.second_tap):
        if tap is None:
            continue
        if tap.marking is not None:
            yield from _thread(case.thread, tap, tap.marking.thread)
        yield from _style(case, tap)


def same_thread(thread: Thread, other: Thread) -> bool:
    """Whether a tap of ``other`` cuts ``thread``, hand and starts aside.

    Source: definitions of the thread systems.
    """
    return not _system_differs(thread, other) and not _size_differs(thread, other) and not _pitch_differs(thread, other)


def _thread(thread: Thread, tap: ReadTap, other: Thread) -> Iterator[Finding]:
    if _system_differs(thread, other):
        form = f"{plain(other.thread_angle)} degree {_way(other)} {other.system}"
        wanted = f"{plain(thread.thread_angle)} degree {_way(thread)} {thread.system}"
        text = f"The tap cuts a {form} thread, the hole is a {wanted} thread: their screws do not fit."
        yield _differs("tap_system_differs", text, tap, thread)
    elif _size_differs(thread, other):
        sizes = (
            f"{length(other.nominal_diameter, other.unit)}, the hole is {length(thread.nominal_diameter, thread.unit)}"
        )
        text = f"The tap is for {sizes} (nominal)."
        yield _differs("tap_size_differs", text, tap, thread)
    elif _pitch_differs(thread, other):
        text = f"The tap cuts {_pitch(other)}, the thread has {_pitch(thread)}."
        yield _differs("tap_pitch_differs", text, tap, thread)
    if other.hand != thread.hand:
        yield _differs("tap_hand_differs", f"The tap is {other.hand}-hand, the thread {thread.hand}-hand.", tap, thread)
    if other.starts != thread.starts:
        text = f"The tap cuts {other.starts} start(s), the thread has {thread.starts}."
        yield _differs("tap_starts_differ", text, tap, thread)


def _differs(code: str, text: str, tap: ReadTap, thread: Thread) -> Finding:
    return Finding(code, "error", tap.field, text, tap.text, thread.designation)


def _system_differs(thread: Thread, other: Thread) -> bool:
    return _taps_of(thread) != _taps_of(other) or thread.taper != other.taper


def _taps_of(thread: Thread) -> str:
    return traits(thread).taps_of or thread.system


def _size_differs(thread: Thread, other: Thread) -> bool:
    return thread.nominal_diameter != other.nominal_diameter


def _pitch_differs(thread: Thread, other: Thread) -> bool:
    return thread.pitch != other.pitch


def _pitch(thread: Thread) -> str:
    if thread.threads_per_inch is not None:
        return f"{plain(thread.threads_per_inch)} threads per inch"
    return f"a pitch of {length(thread.pitch, thread.unit)}"


def _way(thread: Thread) -> str:
    return "parallel" if thread.taper is None else "taper"


def _style(case: AuditCase, tap: ReadTap) -> Iterator[Finding]:
    if tap.style is None:
        return
    forms = tap.style == "forming"
    if forms != (case.spec.request.method == "form"):
        text = (
            "A forming tap needs the larger hole of a formed thread; the request cuts the thread."
            if forms
            else "A cutting tap takes no bite in the hole of a formed thread; the request forms the thread."
        )
        yield Finding("tap_method_differs", "error", tap.field, text, tap.style, case.best_tap.recommended.style)
    kind, best = case.spec.request.hole.kind, case.best_tap.recommended.style
    if tap.style == "spiral_point" and kind == "blind":
        text = "A spiral point pushes its chips ahead: in a blind hole they pack at the bottom and break the tap."
        yield Finding("tap_style_unsuited", "warning", tap.field, text, tap.style, best)
    elif tap.style == "spiral_flute" and kind == "through":
        text = "A spiral flute draws its chips back through the hole; a spiral point is stronger in a through hole."
        yield Finding("tap_style_unsuited", "info", tap.field, text, tap.style, best)
