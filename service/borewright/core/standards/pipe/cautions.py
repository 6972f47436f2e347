"""Cautions that more than one family of pipe threads gives."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.quantity_text import printed_length
from borewright.core.rounding import plain
from borewright.core.standards import family
from borewright.core.standards.evidence import Evidence

#: L1 before the 1983 edition of ANSI/ASME B1.20.1 (old lists were seen).
_OLD_L1_IN = {"1/8": Decimal("0.180"), "1/4": Decimal("0.200")}

#: Wrench make-up at 8 threads per inch: three threads, two threads.
_DRYSEAL_L3_IN, _NPT_L3_IN = Decimal("0.3750"), Decimal("0.2500")


def pressure(proof: Evidence) -> None:
    """Say in ``proof`` that every pipe thread may end up under pressure."""
    proof.caution(
        "pressure_service",
        text="Under pressure, the governing piping or vessel code decides whether this thread may be used, with which"
        " sealant and test. Follow the drawing and local codes; the joint needs licensed practice.",
    )


def american_against_iso(proof: Evidence, *, size: str, tpi: Decimal, other: str) -> None:
    """Say in ``proof`` that American and ISO pipe threads of one size start together where ``tpi`` is the same.

    Args: ``other`` is the table of the form it is confused with: ``iso_7`` for an American thread, ``npt`` for ISO.
    """
    names = ("Rc, Rp, R and G (55 degrees)", "NPT and NPTF (60 degrees)")
    mine, theirs = names if other == "npt" else tuple(reversed(names))
    row = family.by_key(other, "size").get(size)
    if row is None or Decimal(row["threads_per_inch"]) != tpi:
        return
    proof.caution(
        "pipe_forms_never_interchange",
        text=f"{mine} never interchange with {theirs}: at this size both have {plain(tpi)} threads per inch and start"
        " to screw together.",
    )


def npt(proof: Evidence, *, series: str, size: str, l1_in: Decimal) -> None:
    """Say in ``proof`` how ``series`` in ``size`` seals, of an old ``l1_in``, and what ANPT asks beyond NPT."""
    proof.caution(
        "pipe_sealant_required",
        text="NPT leaves a spiral leak path at crest and root: the joint seals only with sealant. It is no dryseal"
        " thread, and an NPT tap must not cut NPTF.",
    )
    if size in _OLD_L1_IN:
        proof.caution(
            "npt_old_engagement",
            text=f"Before the 1983 edition L1 of this size was {printed_length(_OLD_L1_IN[size], 'in')}, not"
            f" {printed_length(l1_in, 'in')}; old lists and gauges still circulate.",
        )
    if series == "ANPT":
        proof.caution(
            "anpt_gauging_not_held",
            text="ANPT is read as NPT. Its own gauging (L3 plug and plain taper plugs, SAE AS71051) is not held:"
            " inspect to that document.",
        )


def dryseal(proof: Evidence, *, short: bool, unsettled: bool) -> None:
    """Say in ``proof`` what dryseal taper threads mate with, ``short`` ones too, and what length is ``unsettled``
    between sources.
    """
    proof.caution(
        "dryseal_mates",
        text="Dryseal threads seal by contact of crest and root with a dryseal mate and need a dryseal tap; with an"
        " NPT mate they seal only with sealant.",
    )
    if short:
        proof.caution(
            "ptf_short_mates",
            text="The internal short thread is meant for an NPTF external thread; with a short external thread it may"
            " not assemble at extreme limits.",
        )
    if unsettled:
        proof.caution(
            "nptf_makeup_unsettled",
            text="Wrench make-up L3 of dryseal threads at 8 threads per inch is not settled: 3 threads"
            f" ({printed_length(_DRYSEAL_L3_IN, 'in')}) are taken here, NPT has 2 threads"
            f" ({printed_length(_NPT_L3_IN, 'in')}). Confirm it in the edition the drawing names.",
        )
