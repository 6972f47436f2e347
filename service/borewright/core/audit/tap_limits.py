"""The pitch diameter that the planned tap makes, against the limits to be made."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from borewright.core.chance.acceptance import pitch_part
from borewright.core.chance.made_sizes import CLEARLY_LOW
from borewright.core.model import Range, Thread
from borewright.core.practice import figure
from borewright.core.shop_figures import serving
from borewright.core.shop_figures.figures import MeasuredCut
from borewright.core.tapping import fit, insert
from borewright.core.tapping.limits import family

from .case import AuditCase, ReadTap
from .findings import Finding, Severity, say, window
from .tap_checks import same_thread

#: Share of the tolerance below which a band that lies under the limit is doubtful and not yet wrong.
_SHORT_SHARE = figure("audit_short_tolerance_share")


def check(case: AuditCase) -> Iterator[Finding]:
    """Findings on the limits of the taps that ``case`` plans.

    Source: limits of the thread or its finish; ASME B94.9 and ISO 2857 for taps; the cut oversize is an assumption.
    """
    for tap in (case.tap, case.second_tap):
        if tap is None or (tap.marking is not None and not same_thread(case.thread, tap.marking.thread)):
            continue
        if tap.candidate is None:
            yield from _not_stated(case, tap)
        elif family(case.thread) == "insert":
            yield from _insert(case, tap)
        else:
            off = tuple(_in_window(case, tap))
            yield from off
            if not off and tap is case.last_tap:
                yield from _often_refused(case, tap)


def _is_oversize(case: AuditCase) -> bool:
    return case.spec.allowance is not None and case.spec.allowance.overtap is not None


def _moved(case: AuditCase) -> bool:
    return case.to_make.pitch_diameter != case.thread.internal.pitch_diameter


def _expected(case: AuditCase) -> str:
    best = case.best_tap.recommended.limit
    limits = window(case.to_make.pitch_diameter, case.thread)
    return limits if best is None else f"{limits}, e.g. {best.label}"


def _not_stated(case: AuditCase, tap: ReadTap) -> Iterator[Finding]:
    if family(case.thread) is None or not _moved(case):
        return
    overtap = case.spec.allowance.overtap if case.spec.allowance is not None else None
    etched = None if tap.marking is None else tap.marking.thread.thread_class
    if overtap is not None and etched == overtap.system:
        return
    text = f"The pitch diameter to be made is {window(case.to_make.pitch_diameter, case.thread)}; no limit is stated."
    yield Finding("tap_limit_not_stated", "warning", tap.field, text, tap.text, _expected(case))


def _insert(case: AuditCase, tap: ReadTap) -> Iterator[Finding]:
    """An insert thread's taps are listed class by class."""
    if tap.candidate is None:
        return
    for name, printed in insert.printed_limits(case.thread):
        if name != case.thread.thread_class or printed.limit.label == tap.candidate.limit.label:
            continue
        high = tap.candidate.high > printed.high
        ends = f"{say(tap.candidate.low, case.thread)} to {say(tap.candidate.high, case.thread)}"
        wanted = f"{say(printed.low, case.thread)} to {say(printed.high, case.thread)}"
        text = f"The tap's limits are {ends}; those for class {name} are {wanted}."
        code = "tap_limit_too_high" if high else "tap_limit_too_low"
        severity: Severity = "error" if high else "warning"
        yield Finding(code, severity, tap.field, text, tap.candidate.limit.label, printed.limit.label)


def _oversize(case: AuditCase, tap: ReadTap) -> Decimal:
    method = "form" if tap.style == "forming" or case.spec.request.method == "form" else "cut"
    found, measured = fit.expected_oversize(case.thread), _measured(case, method)
    if method == "form" and measured is None:
        return -fit.closing_in(case.thread)
    return Decimal(0) if found is None else fit.cut_amount(case.thread, method, found, measured)


def _measured(case: AuditCase, method: str) -> MeasuredCut | None:
    """What the shop's own taps cut oversize, None where the request does not hand it on."""
    asked = case.spec.request
    return serving.cut(asked.shop_figures, case.spec.way.material, method, asked.machine.tapping or "rigid")


def _in_window(case: AuditCase, tap: ReadTap) -> Iterator[Finding]:
    limits, thread, candidate = case.to_make.pitch_diameter, case.thread, tap.candidate
    if candidate is None:
        return
    oversize = _oversize(case, tap)
    up, down = max(oversize, Decimal(0)), min(oversize, Decimal(0))
    if limits.max is not None and candidate.high + up > limits.max:
        text = f"{_sum(candidate.high, up, thread)}: {say(candidate.high + up - limits.max, thread)} above the limit."
        yield _off(case, tap, "tap_limit_too_high", text, beyond=candidate.high > limits.max)
    if limits.min is not None and candidate.low + down < limits.min:
        text = f"{_sum(candidate.low, down, thread)}: {say(limits.min - candidate.low - down, thread)} below the limit."
        short = limits.min - candidate.low
        yield _off(case, tap, "tap_limit_too_low", text, beyond=short > 0 and not _made_up(limits, short, up))


def _often_refused(case: AuditCase, tap: ReadTap) -> Iterator[Finding]:
    """Another tap than the specification's whose threads clearly often miss the limits; its own is decided there."""
    if case.is_best_tap or tap.candidate is None:
        return
    allowance = case.spec.allowance if case.spec.allowance is not None and case.spec.allowance.feasible else None
    tapping = case.spec.request.machine.tapping or "rigid"
    band = tap.candidate.limit.pitch_diameter
    method = "form" if tap.style == "forming" else case.spec.request.method
    found = pitch_part(case.thread, band, _oversize(case, tap), tapping, allowance, _measured(case, method))
    if found is None or found.chance >= CLEARLY_LOW:
        return
    text = (
        f"Only about {100 * found.chance:.1f} % of the threads of {tap.candidate.limit.label} end inside the pitch"
        " diameter limits, cut oversize reckoned."
    )
    yield Finding("tap_often_refused", "warning", tap.field, text, tap.candidate.limit.label, _expected(case))


def _made_up(limits: Range, short: Decimal, oversize: Decimal) -> bool:
    """Whether a tap's band is so little short that the cut's own oversize makes up for it (B94.9 D1 for class 4H)."""
    return limits.max is not None and short <= oversize and short < _SHORT_SHARE * limits.width


def _sum(end: Decimal, change: Decimal, thread: Thread) -> str:
    if change == 0:
        return f"The tap's limit is {say(end, thread)}"
    sign, words = ("+", "expected cut oversize") if change > 0 else ("-", "closing in of the thread")
    total = say(end + change, thread)
    return f"Tap limit {say(end, thread)} {sign} {words} {say(abs(change), thread)} = {total}"


def _off(case: AuditCase, tap: ReadTap, code: str, text: str, *, beyond: bool) -> Finding:
    """``beyond``: the tap's own band passes the limit, not only what it is expected to cut or close in."""
    label = tap.candidate.limit.label if tap.candidate is not None else tap.text
    best = case.best_tap.recommended.limit
    severity: Severity = "error" if beyond else "warning"
    if best is not None and best.label == label:
        severity = "info"
    elif code == "tap_limit_too_low" and _is_oversize(case):
        code = "tap_not_overtapped"
    elif tap.candidate is not None and _clear_above(tap.candidate.low, case.to_make.pitch_diameter):
        code = "tap_overtapped"
    return Finding(code, severity, tap.field, text, label, _expected(case))


def _clear_above(low: Decimal, limits: Range) -> bool:
    return limits.max is not None and low >= limits.max
