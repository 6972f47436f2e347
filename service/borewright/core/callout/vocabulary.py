"""The words that name a thread system or series, and the letters that open a callout."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a callout: the system it names, the series it stands for, and what reading it assumes."""

    system: str
    series: str | None = None
    assumption: str | None = None


def _old(name: str, now: str) -> Word:
    return Word("unified", now, f"{name} is the American National name before the Unified standard: read as {now}.")


def _external(name: str, internal: str) -> Word:
    text = f"{name} (rounded root) is an external thread: the hole is threaded {internal}, its mate is {name}."
    return Word("unified", internal, text)


def _shop(system: str, series: str, name: str) -> Word:
    return Word(system, series, f"{name} is a shop name: read as {series}.")


_DRYSEAL_SHORT = "PTF-SAE SHORT"

#: Series words, wherever they stand in a callout.
WORDS: dict[str, Word] = {
    **{name: Word("unified", name) for name in ("UNC", "UNF", "UNEF", "UNS", "UN")},
    **{name: Word("unified_j", name) for name in ("UNJC", "UNJF", "UNJEF", "UNJS", "UNJ")},
    **{f"UNR{rest}": _external(f"UNR{rest}", f"UN{rest}") for rest in ("C", "F", "EF", "S", "")},
    **{f"N{rest}": _old(f"N{rest}", f"UN{rest}") for rest in ("C", "F", "EF", "S")},
    "UNM": Word("unified_miniature", "UNM"),
    "NPT": Word("npt", "NPT"),
    "ANPT": Word("npt", "ANPT"),
    "FNPT": _shop("npt", "NPT", "FNPT"),
    "FPT": _shop("npt", "NPT", "FPT"),
    "NPTF": Word("nptf", "NPTF"),
    "PTFSHORT": Word("nptf", _DRYSEAL_SHORT),
    "NPSM": Word("npsm", "NPSM"),
    "NPSC": Word("npsc", "NPSC"),
    "NPSF": Word("npsf", "NPSF"),
    "NPSI": Word("npsi", "NPSI"),
    "BSPP": _shop("iso_228", "G", "BSPP"),
    "BSW": Word("whitworth", "BSW"),
    "BSF": Word("whitworth", "BSF"),
    "WHIT": Word("whitworth", "BSW", "Whitworth without a series is read as the coarse one, BSW."),
    "WHITWORTH": Word("whitworth", "BSW", "Whitworth without a series is read as the coarse one, BSW."),
    "BA": Word("british_association"),
    "ACME": Word("acme"),
    "SQUARE": Word("square"),
    "SQ": Word("square"),
}

#: Letters that name a system when they open the callout.
HEADS: dict[str, Word] = {
    "M": Word("iso_metric"),
    "MF": Word("iso_metric", "fine"),
    "MJ": Word("metric_j"),
    "G": Word("iso_228", "G"),
    "RC": Word("iso_7", "Rc"),
    "RP": Word("iso_7", "Rp"),
    "R": Word("iso_7", "R"),
    "TR": Word("trapezoidal"),
    "W": Word("whitworth", "BSW", "W is read as Whitworth, BSW."),
}

#: Words that turn the thread they stand beside into another one.
MODIFIERS = MappingProxyType(
    {
        "STI": MappingProxyType({"unified": "insert_unified", "iso_metric": "insert_metric"}),
        "EG": MappingProxyType({"iso_metric": "insert_metric"}),
        "STUB": MappingProxyType({"acme": "stub_acme"}),
    }
)

#: System -> the one whose callout it is written with.
MODIFIED = {system: base for bases in MODIFIERS.values() for base, system in bases.items()}

#: Words that can mean more than one thread: what each may be, ``{}`` stands for the size.
AMBIGUOUS = MappingProxyType(
    {
        "BSP": ("G {}", "Rp {}", "Rc {}"),
        "BSPT": ("Rc {}", "Rp {}"),
        "PT": ("Rc {}", "Rp {}", "{} NPT"),
        "PF": ("G {}",),
        "PS": ("Rp {}",),
        "PIPE": ("{} NPT", "G {}", "Rc {}", "Rp {}"),
        "GAS": ("G {}", "Rc {}", "Rp {}"),
    }
)

_NO_TABLES = "thread_data_missing"
_UNKNOWN = "thread_system_unknown"
#: Threads that exist and are not held, or that no hole can have: code and reason.
REFUSED = MappingProxyType(
    {
        "MOD": (
            _NO_TABLES,
            "MOD says that the drawing states its own crest limits: they are not part of a callout, and the standard's "
            "limits do not hold for them.",
        ),
        "NPSL": (_NO_TABLES, "The tables of NPSL (locknut) threads are not held."),
        "NPSH": (_NO_TABLES, "The tables of NPSH (hose coupling) threads are not held."),
        "NPTR": (_NO_TABLES, "The tables of NPTR (railing) threads are not held."),
        "PTF": (_NO_TABLES, "Of the special dryseal threads only PTF-SAE SHORT is held."),
        "WHITS": (_NO_TABLES, "Special Whitworth-form threads (Whit.S) are not held: their limits are on the drawing."),
        "MNPT": ("thread_class_external", "MNPT is the external taper thread; the hole that takes it is NPT."),
        "MPT": ("thread_class_external", "MPT is the external taper thread; the hole that takes it is NPT."),
        "NH": (_UNKNOWN, "Hose coupling threads are not held."),
        "NST": (_UNKNOWN, "Hose coupling threads are not held."),
        "GHT": (_UNKNOWN, "Garden hose threads are not held."),
        "BUTT": (_UNKNOWN, "Buttress threads are not held."),
        "BUTTRESS": (_UNKNOWN, "Buttress threads are not held."),
        "CEI": (_UNKNOWN, "Cycle threads are not held."),
        "BSC": (_UNKNOWN, "Cycle threads are not held."),
        "BSB": (_UNKNOWN, "British Standard Brass threads are not held."),
        "PG": (_UNKNOWN, "Conduit threads Pg are not held."),
        "RD": (_UNKNOWN, "Round (knuckle) threads are not held."),
    }
)

#: The same for letters that open a callout.
REFUSED_HEADS = MappingProxyType(
    {
        "S": (
            _NO_TABLES,
            "Miniature S threads (ISO 1501, not the UNM profile) and saw-tooth threads are not held.",
        ),
    }
)

#: Words that :mod:`.dispatch` has to look at more closely than a plain series word.
UNUSUAL = frozenset(MODIFIERS) | frozenset(AMBIGUOUS) | frozenset(REFUSED)
