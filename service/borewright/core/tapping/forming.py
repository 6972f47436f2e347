"""Whether a thread can be formed: straight 60 degree threads in metals that flow (common practice)."""

from __future__ import annotations

from typing import Literal

from borewright.core.errors import TapError
from borewright.core.model import Caution, Material, Thread
from borewright.core.model.decision import Decision

from .shop_practice import habit

Formability = Literal["yes", "trial", "no"]

_TRIAL = Caution(
    "forming_needs_trial",
    "How far a formed thread closes in is common practice only: form a trial hole and gauge it.",
)


def formability(material: Material | None) -> Formability:
    """Whether a material flows into a formed thread; ``trial`` where it may, or where it is not known.

    Source: tap_practice table (common practice); chips as the material has them.
    """
    said = habit(material).forming
    if said == "by_chips":
        return "no" if material is not None and material.chip_type == "short" else "yes"
    return "yes" if said == "yes" else "no" if said == "no" else "trial"


def check(thread: Thread, material: Material | None) -> None:
    """Refuse what cannot be formed.

    Raises: TapError ``method_not_applicable`` for a thread that is not straight and of 60 degrees, or a material that
    does not flow.
    Source: common practice.
    """
    if thread.taper is not None or thread.thread_angle != 60:
        raise TapError(
            "method_not_applicable",
            f"{thread.designation} is not made with a forming tap: only straight threads of 60 degrees are",
            pointer="/method",
            allowed=("cut",),
        )
    refused = refusal(material)
    if refused is not None:
        raise TapError("method_not_applicable", refused, pointer="/method", allowed=("cut",))


def refusal(material: Material | None) -> str | None:
    """Why a material cannot be formed, None where it can be or may be.

    Source: as :func:`formability`.
    """
    if material is None or formability(material) != "no":
        return None
    return f"{material.name} does not flow into a formed thread: it is too hard or breaks short"


def cautions(material: Material | None) -> tuple[Caution, ...]:
    """What the shop must know of a formed thread, unless the decision on the material says it.

    Source: common practice.
    """
    return () if decisions(material) else (_TRIAL,)


def decisions(material: Material | None) -> tuple[Decision, ...]:
    """What a person must decide where a given material may or may not form.

    Source: as :func:`formability`.
    """
    if material is None or formability(material) != "trial":
        return ()
    return (
        Decision(
            "forming_trial",
            f"Whether a thread forms cleanly in {material.name} depends on its batch and condition. Decide: form a"
            " trial hole, section it and gauge it before the first part, or cut the thread.",
            "/method",
        ),
    )
