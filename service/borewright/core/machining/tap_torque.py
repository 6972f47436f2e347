"""Torque band of one tap in one hole, the torque that breaks it, and the warning between the two."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from math import radians, tan

from ..joint import in_mm
from ..model import Thread
from . import torque
from .profile import Profile
from .records import Log, ToolsRequest
from .speeds import factor
from .torque import Band

#: Depth over diameter beyond which a blind hole packs chips and a tap runs slower.
DEEP_D = 1.5


@dataclass(frozen=True, slots=True)
class TapForm:
    """The tap's cutting profile in millimetres: its major, lead, pitch, flat of the crest, flank."""

    major_mm: float
    pitch_mm: float
    lead_mm: float
    starts: int
    crest_mm: float
    tan_half_angle: float


@lru_cache(4096)
def tap_form(thread: Thread) -> TapForm:
    """The profile that a tap of the thread cuts: crest flat P/2 - tan(half angle)(D - D2), P/8 for 60 degrees.

    Source: geometry of the basic profile.
    """
    major, middle = in_mm(thread.basic.major_diameter, thread), in_mm(thread.basic.pitch_diameter, thread)
    pitch, slope = in_mm(thread.pitch, thread), tan(radians(float(thread.thread_angle) / 2))
    crest = max(pitch / 2 - slope * (major - middle), 0.0)
    return TapForm(major, pitch, in_mm(thread.lead, thread), thread.starts, crest, slope)


def chip_section(form: TapForm, hole_diameter: Decimal, thread: Thread) -> torque.Section:
    """Section of one thread that a tap cuts in a hole (diameter in the thread's unit).

    Source: geometry.
    """
    return _section(form, in_mm(hole_diameter, thread))


def _section(form: TapForm, hole_mm: float) -> torque.Section:
    return torque.section(
        major_mm=form.major_mm, hole_mm=hole_mm, crest_mm=form.crest_mm, tan_half_angle=form.tan_half_angle
    )


def tap_torque(material: Profile, request: ToolsRequest, thread: Thread, *, log: Log) -> Band | None:
    """Torque band of the tap in the expected hole, None where it is not modelled.

    Source: chip-section model; factor and scatter fitted to one series (CONEM 2004 paper 21016), not validated.
    """
    force = torque.cutting_force(material)
    form = tap_form(thread)
    if thread.taper is not None:
        log.caution(
            "tap_torque_not_modelled", "The torque of a taper tap, which cuts along its whole length, is not modelled."
        )
        return None
    if force is None:
        log.caution("tap_torque_not_held", f"No specific cutting force is held for {material.name}: no tapping torque.")
        return None
    hole_mm = form.major_mm - form.pitch_mm if request.method == "form" else in_mm(request.hole_diameter, thread)
    cut = _section(form, hole_mm)
    if cut.area_mm2 <= 0:
        log.caution("tap_torque_not_held", "The hole is as large as the thread: nothing is left to cut.")
        return None
    flutes = torque.flutes(form.major_mm, request.style)
    chamfer = float(request.chamfer_threads)
    chip = torque.chip_thickness(depth_mm=cut.depth_mm, chamfer_threads=chamfer, flutes=flutes, starts=form.starts)
    kc = force.at(chip)
    total = _total_factor(request, form, log)
    area = cut.area_mm2 * form.starts
    median = torque.cutting_torque(force_n_mm2=kc, area_mm2=area, arm_mm=cut.arm_mm, total_factor=total)
    _steps(form, hole_mm, cut, log)
    chip_inputs = {"h": cut.depth_mm, "starts": form.starts, "c": chamfer, "z": flutes}
    log.work("tap.chip_thickness", "h * starts / (c * z)", chip_inputs, chip, "mm")
    kc_inputs = {"kc1": force.at_1mm, "chip": chip, "mc": force.mc, "k": force.correction}
    log.work("tap.specific_cutting_force", "kc1 * chip ** (-mc) * k", kc_inputs, kc, "N/mm2")
    inputs = {"F": total, "kc": kc, "A": area, "r": cut.arm_mm}
    log.work("tap.torque", "F * kc * A * r / 1000", inputs, median, "N*m")
    log.caution(
        "torque_not_validated",
        "Tapping torque stands on one measured series (M8 in grey iron, second-hand): take every figure as +/-50 % or"
        " worse. The band is a warning, never a guarantee.",
    )
    log.source("tap.torque", "chip-section model", f"{force.text}; not validated", force.status)
    if request.method == "form":
        return _forming(median, log)
    band = torque.scatter(median)
    spread = {"T": median, "s": factor("sigma_ln")}
    log.work("tap.torque.low", "T / exp(2 * s)", spread, band.low, "N*m")
    log.work("tap.torque.high", "T * exp(2 * s)", spread, band.high, "N*m")
    return band


def _steps(form: TapForm, hole_mm: float, cut: torque.Section, log: Log) -> None:
    """The geometry of the chip section."""
    shape = {"h": cut.depth_mm, "a": form.crest_mm, "t": form.tan_half_angle}
    log.work("tap.thread_depth", "(D - d) / 2", {"D": form.major_mm, "d": hole_mm}, cut.depth_mm, "mm")
    area = {**shape, "starts": form.starts}
    log.work("tap.chip_section", "starts * h * (a + t * h)", area, cut.area_mm2 * form.starts, "mm2")
    arm = {**shape, "D": form.major_mm}
    formula = "D / 2 - h / 3 * (3 * a + 4 * t * h) / (2 * a + 2 * t * h)"
    log.work("tap.chip_arm", formula, arm, cut.arm_mm, "mm")


def _total_factor(request: ToolsRequest, form: TapForm, log: Log) -> float:
    """Factor F of size, style and chip packing, times the share of the chamfer that a short hole fills."""
    size = torque.size_factor(form.major_mm)
    style = factor(request.style) if request.method == "cut" and request.style in _STYLES else 1.0
    packs = request.hole_kind == "blind" and request.deep and request.method == "cut"
    packing = factor("blind_packing") if packs else 1.0
    if packing > 1:
        log.assumptions.append(f"torque x {packing:g} for chips packing in a blind hole deeper than {DEEP_D:g} D")
    log.assumptions.append(f"tap sharp and well lubricated; style factor {style:g}, size factor {size:g}")
    fill = request.chamfer_fill
    inputs = {"size": size, "style": style, "packing": packing, "fill": fill}
    return log.work("tap.total_factor", "size * style * packing * fill", inputs, size * style * packing * fill, "")


_STYLES = frozenset({"straight_flute", "spiral_point", "spiral_flute", "interrupted"})


def _forming(median: float, log: Log) -> Band:
    """Band of a forming tap: a multiple of what a cut tap would need in its usual hole."""
    low, high = factor("forming_low"), factor("forming_high")
    band = Band(median * (low * high) ** 0.5, median * low, median * high)
    log.work("tap.torque", "T * sqrt(low * high)", {"T": median, "low": low, "high": high}, band.value, "N*m")
    log.work("tap.torque.low", "T * low", {"T": median, "low": low}, band.low, "N*m")
    log.work("tap.torque.high", "T * high", {"T": median, "high": high}, band.high, "N*m")
    log.source("tap.torque", "", f"forming: {low:g} to {high:g} times a cut tap's torque", "common_practice")
    log.caution(
        "forming_torque_trial",
        "No published model gives the torque of a forming tap: the band is a multiple of a cut tap's. Make a trial.",
    )
    return band


def breaking(form: TapForm, *, log: Log) -> Band:
    """Torque band that breaks a high-speed steel tap.

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
    log.source(
        "tap.breaking_torque", "torsion formula", "core 0.42, 0.50, 0.56 of D; no published table found", "computed"
    )
    return band


def clutch(breaking: Band, *, log: Log) -> float:
    """Setting of a torque-limiting holder in N m.

    Source: common practice, 0.6 of the low bound of the breaking torque.
    """
    share = factor("clutch")
    log.source("tap.clutch_torque", "", f"{share:g} of the low bound of the breaking torque", "common_practice")
    return log.work("tap.clutch_torque", "k * low", {"k": share, "low": breaking.low}, share * breaking.low, "N*m")


def break_margin(*, needed: Band, breaking: Band, log: Log) -> Band:
    """Breaking over needed torque, with a warning where the weakest tap may meet the highest torque.

    Source: quotient of the two bands, not validated.
    """
    margin = torque.break_margin(breaking=breaking, needed=needed)
    for name, over, under, value in (
        ("tap.break_margin", breaking.value, needed.value, margin.value),
        ("tap.break_margin.low", breaking.low, needed.high, margin.low),
        ("tap.break_margin.high", breaking.high, needed.low, margin.high),
    ):
        log.work(name, "breaking / needed", {"breaking": over, "needed": under}, value, "")
    log.source("tap.break_margin", "chip-section model", "breaking over needed torque; not validated", "computed")
    if margin.low < 1:
        log.caution(
            "tap_break_risk",
            f"The highest torque expected ({needed.high:.2g} N*m) reaches the lowest that may break the tap"
            f" ({breaking.low:.2g} N*m): use a torque-limiting holder set near {factor('clutch') * breaking.low:.2g}"
            " N*m, a larger drill if the limits allow it, a roughing tap ahead, good fluid and a sharp tap."
            " A warning, not a prediction.",
        )
    worn = factor("worn") / factor("total_6mm_up")
    if margin.low >= 1 and needed.value * worn > breaking.low:
        log.assumptions.append(f"a worn or too fast tap may need {worn:.1f} times the torque and reach its low bound")
    return margin
