"""Torque band of one tap in one hole, the torque that breaks it, and the warning between the two."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from math import radians, tan

from borewright.core import quantity_text
from borewright.core.caches import OF_THREADS, cached
from borewright.core.joint.geometry import in_mm
from borewright.core.materials.profile import CuttingProfile
from borewright.core.model import Thread
from borewright.core.practice import number
from borewright.core.rounding import downward
from borewright.core.shop_figures.figures import MeasuredTorque

from . import torque
from .cutting_force import CuttingForce, cutting_force
from .records import CuttingNotes, CuttingRequest, ToolsRequest
from .speeds import factor
from .torque import Band

#: Depth over diameter beyond which a tap runs slower.
DEEP_D = number("deep_tapping_over_diameters")


@dataclass(frozen=True, slots=True)
class TapForm:
    """The tap's cutting profile in millimetres: its major, lead, pitch, flat of the crest, flank."""

    major_mm: float
    pitch_mm: float
    lead_mm: float
    starts: int
    crest_mm: float
    tan_half_angle: float


@cached(OF_THREADS)
def tap_form(thread: Thread) -> TapForm:
    """The profile that a tap of the thread cuts: crest flat P/2 - tan(half angle)(D - D2), P/8 for 60 degrees.

    Source: geometry of the basic profile.
    """
    major, middle = in_mm(thread.basic.major_diameter, thread), in_mm(thread.basic.pitch_diameter, thread)
    pitch, slope = in_mm(thread.pitch, thread), tan(radians(float(thread.thread_angle) / 2))
    crest = pitch / 2 - slope * (major - middle)
    return TapForm(major, pitch, in_mm(thread.lead, thread), thread.starts, crest, slope)


def chip_section(form: TapForm, hole_diameter: Decimal, thread: Thread) -> torque.ChipSection:
    """Section of one ``thread`` in mm2 that a tap of ``form`` cuts in a hole of ``hole_diameter`` (in the thread's
    unit).

    Source: geometry.
    """
    return _section(form, in_mm(hole_diameter, thread))


def _section(form: TapForm, hole_mm: float) -> torque.ChipSection:
    return torque.section(
        major_mm=form.major_mm, hole_mm=hole_mm, crest_mm=form.crest_mm, tan_half_angle=form.tan_half_angle
    )


def tap_torque(material: CuttingProfile, request: ToolsRequest, thread: Thread, *, log: CuttingNotes) -> Band | None:
    """Torque band in N m of the tap for ``thread`` in the hole that ``request`` expects in ``material``, None where it
    is not modelled.

    Args: ``log`` takes the notes.
    Source: chip-section model; factor and scatter fitted to two measured series (tapping_factors table).
    """
    form = tap_form(thread)
    if thread.taper is not None:
        log.assume("no tapping torque: a taper tap cuts along its whole length, which is not modelled")
        return None
    force = cutting_force(material)
    if force is None:
        log.caution("tap_torque_not_held", f"No specific cutting force is held for {material.name}: no tapping torque.")
        return None
    hole_mm = form.major_mm - form.pitch_mm if request.method == "form" else in_mm(request.hole_diameter, thread)
    cut = _section(form, hole_mm)
    if cut.area_mm2 <= 0:
        log.caution("tap_torque_not_held", "The hole is as large as the thread: nothing is left to cut.")
        return None
    _steps(form, hole_mm, cut, log)
    kc = _specific_force(force, request, form, cut, log)
    total = _total_factor(request, log)
    area = cut.area_mm2 * form.starts
    median = torque.cutting_torque(force_n_mm2=kc, area_mm2=area, arm_mm=cut.arm_mm, total_factor=total)
    log.work("tap.torque", "F * kc * A * r / 1000", {"F": total, "kc": kc, "A": area, "r": cut.arm_mm}, median, "N*m")
    if request.measured_torque is not None:
        return _measured(median, request.measured_torque, log)
    log.source("tap.torque", "chip-section model", f"{force.text}; {_FIT}", force.status)
    log.assume(f"tapping torque is a warning, never a guarantee: {_FIT}")
    return _forming(median, log) if request.method == "form" else _scattered(median, log)


_FIT = (
    "one factor fitted to two measured series, M8 in grey iron and M3 in 6061-T6 (both second-hand), residuals 2 %,"
    " scatter 0.55 to 1.8 times; no steel, stainless or formed thread was measured"
)


def _specific_force(
    force: CuttingForce, request: ToolsRequest, form: TapForm, cut: torque.ChipSection, log: CuttingNotes
) -> float:
    """Specific cutting force in N/mm2 at the chip of one tooth of the chamfer."""
    flutes = torque.flutes(form.major_mm, request.style)
    chamfer = float(request.chamfer_threads)
    chip = torque.chip_thickness(depth_mm=cut.depth_mm, chamfer_threads=chamfer, flutes=flutes, starts=form.starts)
    chip_inputs = {"h": cut.depth_mm, "starts": form.starts, "c": chamfer, "z": flutes}
    log.work("tap.chip_thickness", "h * starts / (c * z)", chip_inputs, chip, "mm")
    inputs = {"kc1": force.at_1mm, "chip": chip, "mc": force.mc, "k": force.correction}
    return log.work("tap.specific_cutting_force", "kc1 * chip ** (-mc) * k", inputs, force.at(chip), "N/mm2")


def _scattered(median: float, log: CuttingNotes) -> Band:
    band = torque.scatter(median)
    spread = {"T": median, "s": factor("sigma_ln")}
    log.work("tap.torque.low", "T / exp(2 * s)", spread, band.low, "N*m")
    log.work("tap.torque.high", "T * exp(2 * s)", spread, band.high, "N*m")
    return band


def _measured(median: float, own: MeasuredTorque, log: CuttingNotes) -> Band:
    """The band that the shop measured on holes of its own, as multiples of the model's torque."""
    band = Band(median * own.median, median * own.low, median * own.high)
    for name, times, value in (
        ("tap.torque", own.median, band.value),
        ("tap.torque.low", own.low, band.low),
        ("tap.torque.high", own.high, band.high),
    ):
        log.work(name, "T * f", {"T": median, "f": times}, value, "N*m")
    log.source("tap.torque", "shop figures", own.told(), "measured")
    log.assume(f"tapping torque by what the shop measured: {own.told()}")
    return band


def _steps(form: TapForm, hole_mm: float, cut: torque.ChipSection, log: CuttingNotes) -> None:
    """The geometry of the chip section."""
    shape = {"h": cut.depth_mm, "a": form.crest_mm, "t": form.tan_half_angle}
    log.work("tap.thread_depth", "(D - d) / 2", {"D": form.major_mm, "d": hole_mm}, cut.depth_mm, "mm")
    area = {**shape, "starts": form.starts}
    log.work("tap.chip_section", "starts * h * (a + t * h)", area, cut.area_mm2 * form.starts, "mm2")
    arm = {**shape, "D": form.major_mm}
    formula = "D / 2 - h / 3 * (3 * a + 4 * t * h) / (2 * a + 2 * t * h)"
    log.work("tap.chip_arm", formula, arm, cut.arm_mm, "mm")


def packing(request: CuttingRequest, *, depth_over_diameter: float, log: CuttingNotes) -> float:
    """Torque factor for long chips that pack in the blind hole of ``request``: a ramp over ``depth_over_diameter``, to
    two decimals.

    Args: ``log`` takes the notes.
    Source: common practice (tapping_factors table).
    """
    if request.hole_kind != "blind" or request.method != "cut" or request.material.chip_type == "short":
        return 1.0
    later = factor("spiral_flute_later_d") if request.style == "spiral_flute" else 0.0
    start, full = factor("packing_from_d") + later, factor("packing_full_d") + later
    exact = 1 + (factor("packing") - 1) * min(max((depth_over_diameter - start) / (full - start), 0.0), 1.0)
    value = float(downward(Decimal(repr(exact)), 2))
    inputs = {"k": factor("packing"), "t": depth_over_diameter, "t1": start, "t2": full}
    formula = "down(1 + (k - 1) * min(max((t - t1) / (t2 - t1), 0), 1), 2)"
    return log.work("tap.packing", formula, inputs, value, "")


def _total_factor(request: ToolsRequest, log: CuttingNotes) -> float:
    """Fitted factor, style and packing where chips are long, times the share of the chamfer that a short hole fills."""
    long_chips = request.method == "cut" and request.material.chip_type != "short"
    style = factor(request.style) if long_chips and request.style in _STYLES else 1.0
    if request.packing > 1:
        log.assume(f"torque x {request.packing:g} for chips that pack in the blind hole")
    log.assume(f"tap sharp and well lubricated; style factor {style:g} over a spiral-point tap")
    inputs = {"fit": factor("total"), "style": style, "packing": request.packing, "fill": request.chamfer_fill}
    value = factor("total") * style * request.packing * request.chamfer_fill
    return log.work("tap.total_factor", "fit * style * packing * fill", inputs, value, "")


_STYLES = frozenset({"straight_flute", "spiral_point", "spiral_flute", "interrupted"})


def _forming(median: float, log: CuttingNotes) -> Band:
    """Band of a forming tap: a multiple of what a cut tap would need in its usual hole."""
    low, high = factor("forming_low"), factor("forming_high")
    band = Band(median * (low * high) ** 0.5, median * low, median * high)
    log.work("tap.torque", "T * sqrt(low * high)", {"T": median, "low": low, "high": high}, band.value, "N*m")
    log.work("tap.torque.low", "T * low", {"T": median, "low": low}, band.low, "N*m")
    log.work("tap.torque.high", "T * high", {"T": median, "high": high}, band.high, "N*m")
    log.source("tap.torque", "", f"forming: {low:g} to {high:g} times a cut tap's torque", "common_practice")
    log.assume("no published model gives the torque of a forming tap: make a trial")
    return band


def breaking(form: TapForm, *, log: CuttingNotes) -> Band:
    """Torque band in N m that breaks a high-speed steel tap of ``form``; ``log`` takes the notes.

    Source: torsion formula; no published table of tap breaking torque was found.
    """
    band = torque.breaking_torque(form.major_mm)
    shared = {"D": form.major_mm, "tau": factor("break_stress_n_mm2")}
    for name, core, value in (
        ("tap.breaking_torque", "core_mid", band.value),
        ("tap.breaking_torque.low", "core_low", band.low),
        ("tap.breaking_torque.high", "core_high", band.high),
    ):
        log.work(name, "pi / 16 * (q * D) ** 3 * tau / 1000", {**shared, "q": factor(core)}, value, "N*m")
    where = "torsion formula, core 0.42, 0.50, 0.56 of D; no published table found"
    log.source("tap.breaking_torque", "", where, "common_practice")
    return band


def clutch(needed: Band | None, breaking: Band | None, *, at_risk: bool, log: CuttingNotes) -> float | None:
    """Setting of a torque-limiting holder in N m that drives and protects the tap, None where there is none.

    Args: ``needed`` and ``breaking`` torque; ``at_risk`` where a caution says it already; ``log`` takes the notes.
    Source: common practice, half-way between the highest torque needed and the lowest that breaks the tap.
    """
    if needed is None or breaking is None:
        return None
    setting = torque.clutch_torque(needed=needed, breaking=breaking)
    if setting is None:
        if not at_risk:
            log.assume(f"tap: {_no_setting(needed, breaking)}")
        return None
    log.source("tap.clutch_torque", "", "half-way between highest torque needed and lowest breaking", "common_practice")
    inputs = {"high": needed.high, "low": breaking.low}
    return log.work("tap.clutch_torque", "sqrt(high * low)", inputs, setting, "N*m")


def _both(needed: Band, breaking: Band) -> str:
    high, low = quantity_text.torque(needed.high), quantity_text.torque(breaking.low)
    return f"it may need up to {high} and may break from {low}"


def _no_setting(needed: Band, breaking: Band) -> str:
    return f"{_both(needed, breaking)}, so no clutch setting both drives and protects it"


def break_margin(*, needed: Band, breaking: Band, driven: bool, log: CuttingNotes) -> Band:
    """``breaking`` over ``needed`` torque, a ratio, with a warning where the two meet. ``driven``: a spindle turns the
    tap.

    Args: ``log`` takes the notes.
    Source: quotient of the two bands, spreads added as squares.
    """
    margin = torque.break_margin(breaking=breaking, needed=needed)
    inputs = {"breaking": breaking.value, "needed": needed.value}
    log.work("tap.break_margin", "breaking / needed", inputs, margin.value, "")
    formula = "m {} exp(sqrt(ln(n2 / n1) ** 2 + ln(b2 / b1) ** 2))"
    low = {"m": margin.value, "n1": needed.value, "n2": needed.high, "b1": breaking.low, "b2": breaking.value}
    high = {"m": margin.value, "n1": needed.low, "n2": needed.value, "b1": breaking.value, "b2": breaking.high}
    log.work("tap.break_margin.low", formula.format("/"), low, margin.low, "")
    log.work("tap.break_margin.high", formula.format("*"), high, margin.high, "")
    log.source("tap.break_margin", "chip-section model", "breaking over needed torque; not validated", "computed")
    if margin.low < 1:
        log.caution("tap_break_risk", _risk(needed, breaking, driven=driven))
    worn = factor("worn") / factor("total")
    if margin.low >= 1 and needed.value * worn > breaking.low:
        log.assume(f"a worn or too fast tap may need {worn:.1f} times the torque and break")
    return margin


def _risk(needed: Band, breaking: Band, *, driven: bool) -> str:
    torques = _no_setting(needed, breaking) if driven else _both(needed, breaking)
    return (
        f"The tap may break: {torques}. Take a larger drill if the limits allow it, a roughing tap ahead, good fluid"
        " and a sharp tap. A warning, not a prediction."
    )
