"""Answers kept as bytes: the same question gets the same bytes, another question never gets them."""

from __future__ import annotations

import json

import pytest
from borewright.api.application import create_app
from borewright.api.response_cache import BESIDE, BESIDE_SHARED, Answer, Question, ResponseCache
from borewright.api.views.hole_specs import specification
from hypothesis import given
from hypothesis import strategies as st

HOLE = {"id": "KRP-1042-A1", "thread": "M8", "hole": {"type": "through", "thickness": 12}}


@pytest.fixture
def client():
    return create_app().test_client()


def post(client, body, **more):
    return client.post("/v1/hole-specs", data=json.dumps(body), content_type="application/json", **more)


def test_same_question_same_bytes(client):
    first, again = post(client, HOLE), post(client, HOLE)
    assert first.status_code == again.status_code == 200
    assert first.data == again.data
    assert first.headers["X-Request-Id"] != again.headers["X-Request-Id"]
    assert {name for name, _ in first.headers} == {name for name, _ in again.headers}


def test_another_question_is_asked_anew(client):
    plain = post(client, HOLE).json
    assert "derivation" in client.post("/v1/hole-specs?explain=true", json=HOLE).json
    assert post(client, {**HOLE, "id": "KRP-1042-A2"}).json["id"] == "KRP-1042-A2"
    assert plain["id"] == "KRP-1042-A1"


def test_what_surrounds_the_body_is_still_judged(client):
    post(client, HOLE)
    body = json.dumps(HOLE)
    assert client.post("/v1/hole-specs", data=body, content_type="text/plain").status_code == 415
    assert post(client, HOLE, headers={"Accept": "text/html"}).status_code == 406
    assert client.post("/v1/hole-specs?explian=true", json=HOLE).status_code == 422


def test_refusals_are_not_kept(client):
    wrong = {**HOLE, "thread": "M8x1.2"}
    first, again = post(client, wrong).json, post(client, wrong).json
    assert first["request_id"] != again["request_id"]


def asked(number: int) -> Question:
    return Question("hole-spec", b"", b"%20d" % number)


def test_bytes_of_questions_and_answers_are_bounded():
    kept = ResponseCache(10 * (200 + 20 + BESIDE))
    for number in range(100):
        kept.keep(asked(number), Answer("ready", (b"%200d" % number,)))
    assert [number for number in range(100) if kept.get(asked(number)) is not None] == list(range(90, 100))
    kept.keep(Question("hole-spec", b"", b"x" * 20_000), Answer("ready", (b"",)))
    assert len(kept) == 10, "a question that has no room costs no other its place"


def test_nothing_is_kept_where_nothing_may_be():
    kept = ResponseCache(0)
    kept.keep(asked(1), Answer("ready", (b"",)))
    assert (len(kept), kept.size) == (0, 0)


ANSWERS = st.lists(
    st.lists(st.sampled_from([b"thread" * 40, b"tap" * 90, b"M8", b"M10", b"6H"]), max_size=6), max_size=40
)


@given(ANSWERS, st.integers(0, 12 * BESIDE))
def test_shared_pieces_count_once(answers, most):
    """What is kept is a whole answer each, and the size is that of own pieces and of different shared ones."""
    kept = ResponseCache(most)
    for number, answer in enumerate(answers):
        kept.keep(asked(number), Answer(f"verdict {number}", tuple(answer)))
    left = {n: kept.get(asked(n)) for n in range(len(answers)) if kept.get(asked(n)) is not None}
    assert all(found == (f"verdict {number}", tuple(answers[number])) for number, found in left.items())
    own = sum(len(piece) for found in left.values() for piece in found.pieces[::2])
    shared = {piece for found in left.values() for piece in found.pieces[1::2]}
    beside = (BESIDE + 20) * len(left) + BESIDE_SHARED * len(shared)
    assert kept.size == own + sum(map(len, shared)) + beside <= most


def test_figures_tell_what_is_kept(client):
    def figure(name: str) -> float:
        (line,) = [line for line in client.get("/metrics").text.splitlines() if line.startswith(name)]
        return float(line.rpartition(" ")[2])

    post(client, HOLE)
    assert figure("borewright_response_cache_answers") == 1
    size = figure("borewright_response_cache_bytes")
    assert size > 10_000
    post(client, {**HOLE, "id": "KRP-1042-A9"})
    assert figure("borewright_response_cache_answers") == 1
    post(client, {**HOLE, "hole": {"type": "through", "thickness": 13}})
    assert figure("borewright_response_cache_answers") == 2
    assert figure("borewright_response_cache_bytes") > size


def test_most_of_an_answer_is_shared_with_its_like():
    """From the second hole of a kind on: the same objects, more than half of the bytes."""
    holes = ({**HOLE, "id": f"KRP-1042-B{n}", "hole": {"type": "through", "thickness": 20 + n}} for n in range(3))
    _, second, third = (specification(hole).pieces for hole in holes)
    shared = {id(piece): len(piece) for piece in second[1::2]}
    assert sum(shared.get(id(piece), 0) for piece in third[1::2]) > len(b"".join(third)) / 2
    assert json.loads(b"".join(third))["id"] == "KRP-1042-B2"


def test_a_question_is_its_job_its_defaults_and_its_bytes():
    """The same line of two batches with other defaults, or of another route, is another question."""
    kept = ResponseCache(10_000)
    kept.keep(Question("hole-spec", b"", b"{}"), Answer("ready", (b"one",)))
    for question, known in (
        (Question("hole-spec", b"", b"{}"), True),
        (Question("hole-spec", b"steel", b"{}"), False),
        (Question("drill", b"", b"{}"), False),
        (Question("hole-spec", b"", b"{ }"), False),
    ):
        assert (kept.get(question) is not None) is known, question
