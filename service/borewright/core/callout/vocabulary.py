"""The words that name a thread system or series, and the letters that open a callout."""

from __future__ import annotations

from dataclasses import dataclass

#: Every system, in the order of the reply to "which are there".
SYSTEMS: tuple[str, ...] = (
    "unified",
    "unified_j",
    "unified_miniature",
    "iso_metric",
    "metric_j",
    "npt",
    "nptf",
    "npsm",
    "npsc",
    "npsf",
    "npsi",
    "iso_7",
    "iso_228",
    "whitworth",
    "british_association",
    "acme",
    "stub_acme",
    "trapezoidal",
    "insert_unified",
    "insert_metric",
    "square",
)


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a callout: the system it names, the series it stands for, and what reading it assumes."""

    system: str
    series: str | None = None
    assumption: str | None = None


def _old(name: str, now: str) -> Word:
    return Word("unified", now, f"{name} is the American National name before the Unified standard: read as {now}.")


def _external(name: str, internal: str) -> Word:
    text = (
        f"{name} (rounded root) exists for external threads only: the hole is threaded {internal}, its mate is {name}."
    )
    return Word("unified", internal, text)


WORDS: dict[str, Word] = {
    **{name: Word("unified", name) for name in ("UNC", "UNF", "UNEF", "UNS", "UN")},
    **{name: Word("unified_j", name) for name in ("UNJC", "UNJF", "UNJEF", "UNJS", "UNJ")},
    **{f"UNR{rest}": _external(f"UNR{rest}", f"UN{rest}") for rest in ("C", "F", "EF", "S", "")},
    **{f"N{rest}": _old(f"N{rest}", f"UN{rest}") for rest in ("C", "F", "EF", "S")},
}

#: Letters that name a system when they open the callout.
HEADS: dict[str, Word] = {
    "M": Word("iso_metric"),
    "MJ": Word("metric_j"),
}
