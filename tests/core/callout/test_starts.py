"""Starts are lead over pitch, a whole number of 1 to 12 within 0.2 percent a start."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.callout.listed_sizes import inch_label
from borewright.core.callout.other_systems import as_metric
from borewright.core.callout.starts import starts_of
from borewright.core.callout.thread_as_written import Written
from borewright.core.errors import BorewrightError
from borewright.core.standards.acme.thread import sizes
from every import every


def _lead(text):
    return None if text is None else Decimal(text)


@every(
    ("lead", "written", "starts"),
    [
        # the pitch is .1 in
        (None, None, 1),
        (None, 2, 2),
        (None, 12, 12),
        ("0.1", None, 1),
        ("0.1", 1, 1),
        ("0.2", None, 2),
        ("1.2", None, 12),
        # two starts may be off by .004 of a pitch, twelve by .024
        ("0.2004", None, 2),
        ("0.1996", None, 2),
        ("1.2024", None, 12),
        ("1.1976", None, 12),
        ("0.1002", None, 1),
    ],
)
def test_starts_by_lead_and_pitch(lead, written, starts):
    given = Written(lead=_lead(lead), starts=written)
    assert starts_of(given, threads_per_inch=Decimal(10)) == starts
    assert starts_of(given, pitch=Decimal("0.1")) == starts


@every("text", ["1/4-18 NPT", "G 1/4", "Rc 1/4", "1/4-20 BSW", "2 BA", "1/4-20 UNC", "M8"])
def test_a_thread_of_which_no_starts_are_told_has_one(text):
    assert callout.read(text).starts == 1


@every(
    ("lead", "written", "code", "pointer", "words"),
    [
        (None, 0, "value_out_of_range", "/starts", "A thread has 1 to 12 starts."),
        (None, 13, "value_out_of_range", "/starts", "A thread has 1 to 12 starts."),
        ("0.20041", None, "thread_lead_invalid", "/lead", "The lead 0.20041 is not 1 to 12 times the pitch 0.1."),
        ("1.20241", None, "thread_lead_invalid", "/lead", "The lead 1.20241 is not 1 to 12 times the pitch 0.1."),
        ("0.15", None, "thread_lead_invalid", "/lead", "The lead 0.15 is not 1 to 12 times the pitch 0.1."),
        ("0", None, "thread_lead_invalid", "/lead", "The lead 0 is not 1 to 12 times the pitch 0.1."),
        ("0.03", None, "thread_lead_invalid", "/lead", "The lead 0.03 is not 1 to 12 times the pitch 0.1."),
        ("1.3", None, "thread_lead_invalid", "/lead", "The lead 1.3 is not 1 to 12 times the pitch 0.1."),
        ("100", None, "thread_lead_invalid", "/lead", "The lead 100 is not 1 to 12 times the pitch 0.1."),
        ("0.2", 3, "thread_lead_invalid", "/starts", "Lead 0.2 and pitch 0.1 make 2 starts, not 3."),
    ],
)
def test_leads_that_cannot_be(lead, written, code, pointer, words):
    with pytest.raises(BorewrightError) as refused:
        starts_of(Written(lead=_lead(lead), starts=written), threads_per_inch=Decimal(10))
    fault = refused.value.faults[0]
    assert (fault.code, fault.pointer, fault.detail) == (code, pointer, words)


@every(
    ("size", "pitch", "metric"),
    [
        ("8", None, ("M8",)),
        ("8.0", None, ("M8",)),
        ("15", None, ()),  # ISO 261 has M15 with fine pitches alone
        ("8", "1.25", ("M8x1.25",)),
        ("8", "1.3", ()),
        ("1/2", None, ()),
    ],
)
def test_the_metric_thread_that_two_numbers_may_mean(size, pitch, metric):
    assert as_metric(size, _lead(pitch)) == metric


@every(
    ("size", "label"),
    # a decimal is the size that it lies within half a thousandth of
    [("1/2", "1/2"), (".5", "1/2"), (".5004", "1/2"), (".4996", "1/2"), (".5005", None), (".4995", None)],
)
def test_a_decimal_of_a_listed_size(size, label):
    known = sizes("acme")
    if label is not None:
        assert inch_label("ACME", Written(size=size), known, lambda one, _: one) == label
        return
    with pytest.raises(BorewrightError) as refused:
        inch_label("ACME", Written(size=size), known, lambda one, _: one)
    assert refused.value.code == "thread_size_unknown"
