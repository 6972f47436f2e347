"""Whole Acme threads by hand: h = P/2, clearance .020 to 10 an inch and .010 finer, T = a sqrt(D) + b sqrt(P)."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.requests import ThreadFields
from every import every
from whole_threads import OPEN, basic, codes, form, head, limits, refused, statuses

D = Decimal


#: Callout; basic; internal; external; cautions.
ACME = [
    # D 1, P .2: T 2G .006 + .030 x .44721 = .01942; minor + .05 x .2; screw: - .008, minor 1 - .2 - .02 less 1.5 T
    (
        "1-5 ACME-2G",
        ("1.0000", "0.9000", "0.8000"),
        (("1.0200", "1.0400"), ("0.9000", "0.9194"), ("0.8000", "0.8100")),
        ((None, "1.0000"), ("0.8726", "0.8920"), ("0.7509", "0.7800")),
        (),
    ),
    # T 3G .0028 + .014 x .44721 = .00906; the allowance of its screw is not held
    (
        "1-5 ACME-3G",
        ("1.0000", "0.9000", "0.8000"),
        (("1.0200", "1.0400"), ("0.9000", "0.9091"), ("0.8000", "0.8100")),
        ((None, "1.0000"), OPEN, ("0.7664", "0.7800")),
        ("thread_data_missing",),
    ),
    # T 4G .002 + .010 x .44721 = .00647; minor .78 - 1.5 x .00647 = .77029
    (
        "1-5 ACME-4G",
        ("1.0000", "0.9000", "0.8000"),
        (("1.0200", "1.0400"), ("0.9000", "0.9065"), ("0.8000", "0.8100")),
        ((None, "1.0000"), OPEN, ("0.7703", "0.7800")),
        ("thread_data_missing",),
    ),
    # D .25, P .0625: D - P/2 = .21875; T 2G .003 + .0075; .05 P = .0031, so .005; screw .21875 - .004
    (
        "1/4-16 ACME",
        ("0.2500", "0.2188", "0.1875"),
        (("0.2600", "0.2700"), ("0.2188", "0.2293"), ("0.1875", "0.1925")),
        ((None, "0.2500"), ("0.2043", "0.2148"), ("0.1618", "0.1775")),
        (),
    ),
    # h = .3 P; T 2G .006 x .70711 + .030 x .31623 = .01373; no screw is held
    (
        "1/2-10 STUB ACME",
        ("0.5000", "0.4700", "0.4400"),
        (("0.5200", "0.5400"), ("0.4700", "0.4837"), ("0.4400", "0.4450")),
        None,
        ("stub_acme_sizes",),
    ),
    # D 2.875, P .4: T 3G .0028 x 1.69558 + .014 x .63246 = .01360; minor + .05 x .4; screw 2.455 less 1.5 T
    (
        "2.875-0.4P-0.8L-ACME-3G",
        ("2.8750", "2.6750", "2.4750"),
        (("2.8950", "2.9150"), ("2.6750", "2.6886"), ("2.4750", "2.4950")),
        ((None, "2.8750"), OPEN, ("2.4346", "2.4550")),
        ("acme_special_pair", "multi_start_tolerance", "thread_data_missing"),
    ),
]


@every(("text", "of_form", "internal", "external", "cautions"), ACME)
def test_acme_by_hand(resolved, text, of_form, internal, external, cautions):
    thread = resolved(text)
    assert basic(thread) == of_form
    assert limits(thread.internal) == internal
    assert (thread.external and limits(thread.external)) == external
    assert codes(thread) == cautions
    assert thread.thread_angle == 29


@every(
    ("text", "named", "of_form"),
    [
        (
            "1 3/4-4 ACME-3G-LH",
            ("1 3/4-4 ACME-3G-LH", None, "1 3/4", "3G", "3G"),
            ("in", "1.75", "0.2500000", "4", "0.2500000", "1", "29", None),
        ),
        (
            "1/2-10 STUB ACME",
            ("1/2-10 STUB ACME", None, "1/2", "2G", "2G"),
            ("in", "0.5", "0.1000000", "10", "0.1000000", "1", "29", None),
        ),
        (
            "1-0.2P-0.4L-ACME-2G",
            ("1.000-0.2P-0.4L-ACME-2G", None, "1", "2G", "2G"),
            ("in", "1", "0.2000000", "5", "0.4000000", "2", "29", None),
        ),
    ],
)
def test_heads_of_acme_threads(resolved, text, named, of_form):
    thread = resolved(text)
    assert head(thread) == named
    assert form(thread) == of_form


def test_several_starts_of_acme(resolved):
    """Lead .8 on a pitch diameter of 2.675: atan(.8 / (pi x 2.675)) = 5.44 degrees."""
    several = resolved("2.875-0.4P-0.8L-ACME-3G").extra["multi_start"]
    assert {name: str(value) for name, value in several.items()} == {
        "starts": "2",
        "lead": "0.80000",
        "lead_angle": "5.44",
    }
    assert "multi_start" not in resolved("1-5 ACME").extra


@every(
    ("text", "designation"),
    [
        ("1-5 ACME SPL", "1-5 ACME-2G"),
        ("1-0.2P-0.2L-ACME", "1-5 ACME-2G"),
        ("1-4 ACME SPL", "1.000-0.25P-0.25L-ACME-2G"),
        ("1/4-10 ACME SPL", "0.250-0.1P-0.1L-ACME-2G"),
        ("5-1 ACME SPL", "5.000-1P-1L-ACME-2G"),
        ("1-16 ACME SPL", "1.000-0.0625P-0.0625L-ACME-2G"),
    ],
)
def test_special_acme_pairs_are_those_that_the_standard_does_not_list(resolved, text, designation):
    """1-5 is listed, whatever is said beside it; specials from .25 to 5 in and from 1 to 16 threads an inch."""
    thread = resolved(text)
    assert thread.designation == designation
    assert ("acme_special_pair" in codes(thread)) is ("P-" in designation)


@every("text", ["0.249-16 ACME SPL", "5.001-2 ACME SPL", "2-16.1 ACME SPL", "5-0.9 ACME SPL"])
def test_special_acme_pairs_out_of_range(resolved, text):
    fault = refused(lambda: resolved(text))
    assert (fault.code, fault.pointer) == ("value_out_of_range", "/thread")
    assert "from 0.25 to 5 in and 1 to 16 threads per inch" in fault.detail


def test_acme_pair_that_is_not_listed_is_offered_as_a_special_one(resolved):
    """1 in has 5 threads an inch; 4 belong to 1 1/2 and its neighbours."""
    fault = refused(lambda: resolved("1-4 ACME"))
    assert fault.did_you_mean[0] == "1-5 ACME-2G"
    assert fault.did_you_mean[-1] == "1-4 ACME SPL"
    assert fault.allowed == ("5",)


@every(
    ("given", "code", "words"),
    [
        ("2G/2G", None, "2G"),
        ("2g", None, "2G"),
        ("2G/3G", "thread_class_unknown", "no class"),
        ("2C", "thread_data_missing", "Centralizing"),
        ("5G", "thread_class_unknown", "ACME has no class '5G'"),
        ("twoG", "thread_class_unknown", "ACME has no class 'twoG'"),
    ],
)
def test_classes_of_an_acme_nut(given, code, words):
    """A pair may name nut and screw alike; classes with C are fitted on the major diameter and not held."""

    def read():
        return callout.from_fields(ThreadFields("acme", "1", threads_per_inch=D(5), thread_class=given))

    if code is None:
        assert read().thread_class == words
        return
    fault = refused(read)
    assert (fault.code, fault.pointer, fault.allowed) == (code, "/thread/class", ("2G", "3G", "4G"))
    assert words in fault.detail


def test_how_well_acme_threads_are_known(resolved):
    """Formulas of B1.5 are computed, the greatest major diameter and all tolerances of B1.8 from memory."""
    acme, stub = (statuses(resolved(text), "internal") for text in ("1-5 ACME", "1-5 STUB ACME"))
    assert set(acme.values()) == {"computed", "from_memory"}
    assert [name for name, status in acme.items() if status == "from_memory"] == ["internal.major_diameter.max"]
    assert sorted(name for name, status in stub.items() if status == "from_memory") == [
        "internal.major_diameter.max",
        "internal.minor_diameter.max",
        "internal.pitch_diameter.max",
    ]
    screw = [source for source in resolved("1-5 ACME").notes.sources if source.field.startswith("external")]
    assert len(screw) == 5
    assert {source.locator.partition(";")[0] for source in screw} == {"external limits"}
    assert (resolved("1-5 ACME").standard.document, resolved("1-5 STUB ACME").standard.document) == (
        "ASME B1.5",
        "ASME B1.8",
    )


@every(("text", "least", "greatest"), [("1/2-10 ACME", "0.5200", "0.5400"), ("1/2-11 ACME SPL", "0.5100", "0.5200")])
def test_clearance_at_the_major_diameter(resolved, text, least, greatest):
    """ASME B1.5: .020 in to 10 threads an inch, .010 in for finer ones, and as much again up to the greatest."""
    assert limits(resolved(text).internal)[0] == (least, greatest)
