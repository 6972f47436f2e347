"""Few false alarms: plain holes of everyday work are ready, with few cautions (the goal is the shop's, no source)."""

from __future__ import annotations

import runpy
from pathlib import Path

COMMON = runpy.run_path(str(Path(__file__).parent / "common_holes.py"))
PLAIN, holes, said = COMMON["PLAIN"], COMMON["holes"], COMMON["said"]


def test_plain_holes_are_ready_with_at_most_two_cautions():
    found = [said(request) for request in holes() if request["material"] in PLAIN]
    assert len(found) == 280
    quiet = [one for one in found if one.verdict == "ready" and len(one.cautions) <= 2]
    assert len(quiet) >= 0.8 * len(found)


def test_each_review_names_what_is_to_be_decided():
    for request in holes():
        hole = said(request)
        assert (hole.verdict == "ready") == (not hole.review), hole
