"""A series that a thread system does not have is refused with those that it has and, where one fits, the one meant.

What is allowed are the names of the series tables: ASME B1.1 tables 1 and 2 (UN) and B1.15 (UNJ), ISO 261 (coarse,
fine), BS 84 (BSW coarse, BSF fine), ASME B1.20.1 and B1.20.3 (NPT, NPTF ...), ISO 7-1 (Rc, Rp), ISO 228-1 (G), ASME
B1.10 (UNM). The one meant is the only one, the one of the same grade, or the one spelled alike.
"""

from decimal import Decimal

import pytest
from borewright.core.callout import from_fields
from borewright.core.errors import BorewrightError
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from every import every

_UNIFIED = ("UNC", "UNF", "UNEF", "4UN", "6UN", "8UN", "12UN", "16UN", "20UN", "28UN", "32UN", "UNS")
_UNJ = ("UNJC", "UNJF", "UNJEF", "4UNJ", "6UNJ", "8UNJ", "12UNJ", "16UNJ", "20UNJ", "28UNJ", "32UNJ", "UNJS")
_METRIC = ("coarse", "fine", "special")
_BS_84 = ("BSW", "BSF")


@every(
    ("system", "size", "series", "allowed", "meant"),
    [
        ("whitworth", "1/2", "UNC", _BS_84, ("BSW",)),
        ("whitworth", "1/2", "unf", _BS_84, ("BSF",)),
        ("whitworth", "1/2", "UNJF", _BS_84, ("BSF",)),
        ("whitworth", "1/2", "NC", _BS_84, ("BSW",)),
        ("whitworth", "1/2", "UNEF", _BS_84, ()),
        ("whitworth", "1/2", "fine", _BS_84, ("BSF",)),
        ("whitworth", "1/2", "BSX", _BS_84, ("BSW",)),
        ("whitworth", "1/2", "NPT", _BS_84, ()),
        ("unified", "1/2", "BSW", _UNIFIED, ("UNC",)),
        ("unified", "1/2", "BSF", _UNIFIED, ("UNF",)),
        ("unified", "1/2", "MF", _UNIFIED, ("UNF",)),
        ("unified", "1/2", "coarse", _UNIFIED, ("UNC",)),
        ("unified", "1/2", "20UNJ", _UNIFIED, ("20UN",)),
        ("unified", "1/2", "Rc", _UNIFIED, ()),
        ("unified_j", "1/2", "UNC", _UNJ, ("UNJC",)),
        ("unified_j", "1/2", "BSF", _UNJ, ("UNJF",)),
        ("unified_j", "1/2", "UNJEFF", _UNJ, ("UNJEF",)),
        ("insert_unified", "1/2", "BSF", _UNIFIED, ("UNF",)),
        ("insert_metric", "M8", "UNC", _METRIC, ("coarse",)),
        ("iso_metric", "M8", "UNF", _METRIC, ("fine",)),
        ("iso_metric", "M8", "corse", _METRIC, ("coarse",)),
        ("metric_j", "MJ8", "UNJF", _METRIC, ("fine",)),
        ("npt", "1/2", "UNC", ("NPT", "ANPT"), ()),
        ("npt", "1/2", "NPTF", ("NPT", "ANPT"), ("NPT",)),
        ("nptf", "1/2", "NPT", ("NPTF", "PTF-SAE SHORT"), ("NPTF",)),
        ("npsm", "1/2", "NPSC", ("NPSM",), ("NPSM",)),
        ("iso_7", "1/2", "G", ("Rc", "Rp"), ()),
        ("iso_7", "1/2", "Rcc", ("Rc", "Rp"), ("Rc",)),
        ("iso_228", "1/2", "Rp", ("G",), ("G",)),
        ("unified_miniature", "1.00 UNM", "UNF", ("UNM",), ("UNM",)),
        ("unified_miniature", "1.00 UNM", "miniature", ("UNM",), ("UNM",)),
        ("acme", "1", "UNC", (), ()),
        ("stub_acme", "1", "UNC", (), ()),
        ("trapezoidal", "40", "UNC", (), ()),
        ("british_association", "4", "BSF", (), ()),
    ],
)
def test_a_series_that_a_system_does_not_have(
    system: str, size: str, series: str, allowed: tuple[str, ...], meant: tuple[str, ...]
) -> None:
    with pytest.raises(BorewrightError) as refused:
        from_fields(ThreadFields(system, size, series=series))
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("thread_series_mismatch", "/thread/series")
    assert (fault.allowed, fault.did_you_mean) == (allowed, meant)


@every(
    ("system", "size", "series", "same"),
    [
        ("unified_miniature", "1.00 UNM", "unm", "UNM"),
        ("iso_metric", "M8", "Coarse", "coarse"),
        ("whitworth", "1/2", "bsf", "BSF"),
        ("npt", "1/2", "anpt", "ANPT"),
    ],
)
def test_a_series_in_any_case(system: str, size: str, series: str, same: str) -> None:
    assert from_fields(ThreadFields(system, size, series=series)).series == same


def test_a_special_metric_pitch_in_any_case() -> None:
    assert (
        from_fields(ThreadFields("iso_metric", "M13", pitch=Length(Decimal(1), "mm"), series="Special")).series
        == "special"
    )


@every(
    ("fields", "words"),
    [
        (ThreadFields("npt", "1/2", series="foo"), "'foo' is no series of NPT."),
        (ThreadFields("nptf", "1/2", series="foo"), "'foo' is no series of NPTF."),
    ],
)
def test_a_word_that_is_no_series_is_held_against_the_plain_one(fields: ThreadFields, words: str) -> None:
    with pytest.raises(BorewrightError) as refused:
        from_fields(fields)
    assert refused.value.faults[0].detail == words


@every(("system", "series"), [("npt", "NPT"), ("nptf", "NPTF"), ("npsm", "NPSM"), ("iso_228", "G")])
def test_no_series_is_the_plain_one(system: str, series: str) -> None:
    assert from_fields(ThreadFields(system, "1/2")).series == series
