"""The catalogue crossed with every option: each request is answered or refused with a code, never anything else."""

from __future__ import annotations

import sys
from multiprocessing import get_context
from pathlib import Path

import pytest
from borewright.contract import replies
from borewright.contract.requests import ALLOWANCE
from borewright.core.plan import specify

sys.path.insert(0, str(Path(__file__).parent))
from combinations import hole_spec, walk

SAMPLE, LONG, SHARE = 500, 34_000, 2_000
ENDPOINTS = 6


def test_a_sample_is_answered_or_refused_with_a_code() -> None:
    """500 holes, each asked of six endpoints: 3,000 requests."""
    came, wrong = walk(0, SAMPLE)
    assert wrong == {}
    assert sum(came.values()) == SAMPLE * ENDPOINTS
    answered = {name.removesuffix(" answered") for name in came if name.endswith(" answered")}
    assert len(answered) == ENDPOINTS
    assert came["hole-specs answered"] > SAMPLE / 10


@pytest.mark.long
def test_two_hundred_thousand_are_answered_or_refused_with_a_code() -> None:
    """34,000 holes, each asked of six endpoints: 204,000 requests."""
    with get_context("spawn").Pool(2) as workers:
        walked = workers.starmap(walk, [(1_000_000 + first, SHARE) for first in range(0, LONG, SHARE)])
    assert [wrong for _, wrong in walked if wrong] == []
    assert sum(sum(came.values()) for came, _ in walked) == LONG * ENDPOINTS


def test_the_same_seed_draws_the_same_request() -> None:
    assert hole_spec(4711) == hole_spec(4711)
    assert len({str(hole_spec(seed)) for seed in range(200)}) > 190


@pytest.mark.parametrize("specification", ["MIL-C-26074E Grade A", "ASTM B695 Class 40", "ASTM B545 Class F"])
def test_a_thickness_in_the_other_unit_beside_its_class(specification: str) -> None:
    """5 um are 0.00019685... in with some thirty decimals: no figure that a class could print."""
    finish = {"thickness": "5 um", "specification": specification}
    asked = ALLOWANCE.asked({"thread": "3/8-16 UNC-2B", "finish": finish})
    reply = replies.allowance_reply(specify.allow_finish(asked.request), asked)
    assert reply["finish"]["thickness"]["min"] == pytest.approx(0.00019685, abs=6e-6)
