"""What a reply says where a part of the process was asked for and cannot be told, and how a choice was made."""

from __future__ import annotations

import pytest

HOLE = {"type": "blind", "full_thread_depth": "15 mm"}


def reply(client, **body):
    answer = client.post("/v1/hole-specs", json=body)
    assert answer.status_code == 200, answer.get_json()
    return answer.get_json()


def said(found, code: str) -> str:
    return " ".join(caution["text"] for caution in found["cautions"] if caution["code"] == code)


@pytest.mark.parametrize(
    ("body", "why"),
    [
        ({"thread": "M8"}, "material was not given"),
        ({"thread": "3/8-18 NPSC", "material": "6061-T6", "percent_thread": 1}, "nothing to cut"),
        ({"thread": "1/4-20 UNC-2B STI", "material": "6061-T6", "percent_thread": 1}, "nothing to cut"),
    ],
)
def test_a_comparison_that_cannot_be_made_says_why(client, body, why):
    found = reply(client, hole=HOLE, objective="least_torque", **body)
    assert found["comparison"] is None
    assert why in said(found, "comparison_missing")


@pytest.mark.parametrize("objective", ["chart", "least_torque"])
def test_a_comparison_that_is_made_or_not_asked_for_is_not_missed(client, objective):
    found = reply(client, thread="M8", hole=HOLE, objective=objective, material="6061-T6")
    assert (found["comparison"] is None) == (objective == "chart")
    assert said(found, "comparison_missing") == ""
