"""Batches: every form in, every form out; what is wrong with one item is that item's problem alone."""

from __future__ import annotations

import csv
import gzip
import io
import json
from collections.abc import Iterator

import pytest
from borewright.api import create_app
from borewright.api.settings import Settings

URL = "/v1/hole-specs/batch"
NDJSON, CSV = "application/x-ndjson", "text/csv"
GOOD = {"id": "KRP-1042-A1", "thread": "1/2-13 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.75}}
METRIC = {"id": "KRP-6008-F4", "thread": "M20", "hole": {"type": "through", "thickness": 25}}
BAD = {"id": "KRP-1042-A9", "thread": "1/4-2O UNC", "hole": {"type": "through", "thickness": 1}}

MEASURED = b"drilled_hole,5/16,0.3135 in,all\ndrilled_hole,5/16,0.3142 in,all\n"


def ndjson(*items: object) -> bytes:
    return b"".join(json.dumps(item).encode() + b"\n" for item in items)


def rows(answer) -> list[dict]:
    return [json.loads(line) for line in answer.data.splitlines()]


def post(client, body: bytes | Iterator[bytes], form: str = NDJSON, **headers: str):
    return client.post(
        URL, data=body, content_type=form, headers={key.replace("_", "-"): v for key, v in headers.items()}
    )


def test_array_is_answered_in_order(client):
    answer = client.post(URL, json={"items": [GOOD, BAD, METRIC]})
    summary = answer.json["summary"]
    assert (summary["items"], summary["ok"], summary["failed"]) == (3, 2, 1)
    verdicts = [result["spec"]["verdict"] for result in answer.json["results"] if result["status"] == "ok"]
    assert summary["verdicts"] == {name: verdicts.count(name) for name in ("ready", "review", "infeasible")}
    assert [(r["index"], r["id"], r["status"]) for r in answer.json["results"]] == [
        (0, "KRP-1042-A1", "ok"), (1, "KRP-1042-A9", "error"), (2, "KRP-6008-F4", "ok"),
    ]  # fmt: skip
    assert answer.json["results"][0]["spec"] == client.post("/v1/hole-specs", json=GOOD).json
    alone = client.post("/v1/hole-specs", json=BAD).json
    problem = answer.json["results"][1]["problem"]
    assert (problem["code"], problem["errors"]) == (alone["code"], alone["errors"])


def test_defaults_fill_what_an_item_does_not_have(client):
    bare = {key: value for key, value in GOOD.items() if key != "id"}
    own = {**bare, "material": "1045"}
    results = client.post(URL, json={"defaults": {"material": "6061-T6"}, "items": [bare, own]}).json["results"]
    assert [result["spec"]["material"]["name"] for result in results] == [
        "aluminium 6061-T6/T651", client.post("/v1/hole-specs", json=own).json["material"]["name"],
    ]  # fmt: skip


def test_lines_are_answered_as_the_array_is(client):
    items = [GOOD, BAD, METRIC, GOOD]
    answer = post(client, ndjson(*items))
    array = client.post(URL, json={"items": items}).json["results"]
    shown = rows(answer)
    assert answer.mimetype == NDJSON
    for result in (*shown, *array):
        result.get("problem", {}).pop("request_id", None)
    assert shown == array


@pytest.mark.parametrize(
    ("line", "code"),
    [
        (b'{"thread":"M8","thread":"M10"}', "json_duplicate_key"),
        (b'{"thread":NaN}', "json_number_not_finite"),
        (b"{", "json_unreadable"),
        (b"[]", "body_not_object"),
        (b"\xff", "json_not_utf8"),
        (b'{"a":' + b"[" * 60 + b"]" * 60 + b"}", "json_too_deep"),
        (b'"' + b"x" * 300_000 + b'"', "line_too_long"),
        (b"{}", "field_missing"),
    ],
)
def test_a_bad_line_spoils_no_other(client, line, code):
    found = rows(post(client, ndjson(GOOD) + line + b"\n\n" + ndjson(METRIC)))
    assert [result["status"] for result in found] == ["ok", "error", "ok"]
    assert found[1]["problem"]["code"] == code
    assert [result["index"] for result in found] == [0, 1, 2]


def test_a_bad_item_of_an_array_spoils_no_other(client):
    body = b'{"items":[' + json.dumps(GOOD).encode() + b',{"thread":"M8","thread":"M9"},{"thread":NaN},3]}'
    results = post(client, body, "application/json").json["results"]
    assert [result.get("problem", {}).get("code") for result in results] == [
        None, "json_duplicate_key", "json_number_not_finite", "body_not_object",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("body", "code"),
    [
        ({"items": 3}, "field_type_wrong"),
        ({"defaults": [], "items": []}, "field_type_wrong"),
        ({}, "field_missing"),
        ({"item": []}, "field_unknown"),
    ],
)
def test_an_array_that_is_none_is_refused(client, body, code):
    answer = client.post(URL, json=body)
    assert (answer.status_code, answer.json["code"]) == (422, code)


def test_limits_are_told():
    client = create_app(Settings(max_batch_items=2, max_batch_bytes=2000, max_stream_bytes=1000)).test_client()
    answer = client.post(URL, json={"items": [GOOD] * 3})
    assert (answer.status_code, answer.json["code"]) == (413, "batch_too_large")
    assert "2 items" in answer.json["detail"]
    answer = client.post(URL, json={"items": [GOOD] * 100})
    assert answer.status_code == 413
    assert "2000 bytes" in answer.json["detail"]
    bomb = gzip.compress(b" " * 100_000)
    assert post(client, bomb, "application/json", Content_Encoding="gzip").status_code == 413
    assert post(client, ndjson(*[GOOD] * 3), Accept="application/json").status_code == 413
    last = rows(post(client, ndjson(*[GOOD] * 20)))[-1]
    assert last["problem"]["code"] == "batch_too_large"


@pytest.mark.parametrize(
    ("path", "form", "body"),
    [
        ("/v1/shop-figures/fit", CSV, b"kind,drill,measured,selection\n" + MEASURED * 50),
        ("/v1/part-plans", CSV, b"thread,hole.type\n" + b"1/2-13 UNC-2B,through\n" * 100),
        ("/v1/part-plans", NDJSON, ndjson(*[GOOD] * 100)),
    ],
)
def test_what_is_answered_as_a_whole_is_bounded_as_one_document(path, form, body):
    client = create_app(Settings(max_batch_bytes=2000)).test_client()
    answer = client.post(path, data=body, content_type=form)
    assert (answer.status_code, answer.json["code"]) == (413, "batch_too_large")
    assert "2000 bytes" in answer.json["detail"]
    few = body[: body.rindex(b"\n", 0, 1000) + 1]
    assert client.post(path, data=few, content_type=form).status_code == 200


@pytest.mark.parametrize("form", [NDJSON, CSV])
def test_longest_line_is_told(client, form):
    head = b"id,thread,hole.type\r\n" if form == CSV else b""
    (row,) = rows(post(client, head + b"x" * 131_073 + b"\n", form, Accept=NDJSON))
    assert "131072 bytes" in row["problem"]["detail"]


def test_streams_are_longer_than_a_single_request_may_be(client):
    found = post(client, ndjson(*[GOOD] * 12_000))
    assert found.data.count(b'"status":"ok"') == 12_000


def test_gzip_both_ways(client):
    answer = post(client, gzip.compress(ndjson(GOOD, METRIC)), Content_Encoding="gzip", Accept_Encoding="gzip")
    assert answer.headers["Content-Encoding"] == "gzip"
    plain = post(client, ndjson(GOOD, METRIC))
    assert gzip.decompress(answer.data) == plain.data


def test_cut_uploads_are_answered_as_far_as_they_came(client):
    lines = ndjson(GOOD, METRIC)
    found = rows(post(client, lines[:-20]))
    assert [result["status"] for result in found] == ["ok", "error"]
    whole = gzip.compress(ndjson(*({**GOOD, "id": f"KRP-{n}"} for n in range(200))))
    found = rows(post(client, whole[:-30], Content_Encoding="gzip"))
    assert found[0]["status"] == "ok"
    assert found[-1]["problem"]["code"] == "upload_truncated"
    assert "bytes" in found[-1]["problem"]["detail"]
    assert [result["index"] for result in found] == list(range(len(found)))
    found = rows(post(client, whole[:100] + b"xxxx" + whole[104:], Content_Encoding="gzip"))
    assert found[-1]["problem"]["code"] == "upload_truncated"


SHEET = """id,thread,hole.type,hole.full_thread_depth,hole.thickness,material,material.hardness,unit_system
KRP-1042-A1,1/2-13 UNC-2B,blind,0.75,,4140,28 HRC,
=1+1,M8,through,,12 mm,,,metric
KRP-1042-A3,M8,through,,,,,
"""


def test_csv_both_ways(client):
    answer = post(client, SHEET.encode(), CSV)
    found = list(csv.DictReader(io.StringIO(answer.data.decode(), newline="")))
    spec = client.post("/v1/hole-specs", json={**GOOD, "material": {"name": "4140", "hardness": "28 HRC"}}).json
    assert float(found[0]["depths.drill_depth"]) == spec["depths"]["drill_depth"]
    assert found[0]["tap.recommended.limit.label"] == spec["tap"]["recommended"]["limit"]["label"]
    assert [row["status"] for row in found] == ["ok", "ok", "error"]
    assert found[1]["id"] == "'=1+1"
    assert found[2]["problem.errors.pointer"] == "/hole/thickness"


def test_csv_in_lines_out(client):
    found = rows(post(client, SHEET.encode(), CSV, Accept=NDJSON))
    assert [result["id"] for result in found] == ["KRP-1042-A1", "=1+1", "KRP-1042-A3"]


def test_csv_rows_that_cannot_be_read(client):
    sheet = (
        b"id,thread,hole.type,hole.thickness\na,M8,through,12\nb,M8,through,12,,x\nc,\xff,through,2\nd,M8,through,12\n"
    )
    found = rows(post(client, sheet, CSV, Accept=NDJSON))
    assert [result["status"] for result in found] == ["ok", "error", "error", "ok"]
    assert found[1]["problem"]["code"] == "csv_unreadable"


@pytest.mark.parametrize("head", [b"", b"thread,hole.typ\n", b"thread,thread\n"])
def test_csv_heads(client, head):
    answer = post(client, head + b"M8,through\n" if head else b"", CSV)
    assert answer.status_code == 400
    assert answer.json["code"].startswith("csv_")


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "＝", "＋", "－", "＠", "\t", "\r"])
def test_no_text_of_a_cell_is_a_formula(client, start):
    answer = post(client, ndjson({**GOOD, "id": start + "x"}), Accept=CSV)
    (row,) = csv.DictReader(io.StringIO(answer.data.decode(), newline=""))
    assert row["id"] == "'" + start + "x"


def test_other_encodings_and_forms_are_refused(client):
    assert post(client, b"x", Content_Encoding="br").status_code == 415
    assert post(client, b"x", "text/plain").status_code == 415
    assert post(client, b"x", Accept="image/png").status_code == 406


def test_the_service_reads_while_it_answers(service_url):
    import requests

    def upload() -> Iterator[bytes]:
        for number in range(300):
            yield ndjson({**GOOD, "id": f"KRP-{number}"})

    answer = requests.post(f"{service_url}{URL}", data=upload(), headers={"Content-Type": NDJSON}, timeout=60)
    assert [json.loads(line)["id"] for line in answer.content.splitlines()] == [f"KRP-{n}" for n in range(300)]


THICK = {**GOOD, "id": "KRP-1042-A3", "finish": "ASTM B633 Fe/Zn 25"}
SOFT = {**GOOD, "id": "KRP-1042-A2", "material": "6061-T6"}


@pytest.mark.parametrize("form", [NDJSON, CSV, "application/json"])
def test_only_what_a_person_must_look_at(client, form):
    """A coat of 25 um closes a 1/2-13 UNC-2B thread, a bare one can be made; what is wrong is never left out."""
    for _ in range(2):  # the second answer comes from what is kept
        if form == "application/json":
            answer = client.post(f"{URL}?only=review", json={"items": [SOFT, THICK, BAD]})
            shown = [(row["index"], row["id"]) for row in answer.json["results"]]
            assert answer.json["summary"]["items"] == 3
        else:
            answer = client.post(
                f"{URL}?only=review", data=ndjson(SOFT, THICK, BAD), content_type=NDJSON, headers={"Accept": form}
            )
            found = rows(answer) if form == NDJSON else list(csv.DictReader(io.StringIO(answer.text)))
            shown = [(int(row["index"]), row["id"]) for row in found]
        assert shown == [(1, THICK["id"]), (2, BAD["id"])]


def test_another_word_than_review_is_refused(client):
    answer = client.post(f"{URL}?only=ready", json={"items": [GOOD]})
    assert (answer.status_code, answer.json["errors"][0]["pointer"]) == (422, "/only")


def test_defaults_may_hold_any_json_number():
    """A whole number beyond 64 bits is JSON: it is refused by each item, and breaks nothing."""
    client = create_app().test_client()
    body = '{"defaults": {"strict": 123456789012345678901234567890}, "items": [{"thread": "M8"}]}'
    answer = client.post("/v1/hole-specs/batch", data=body, content_type="application/json")
    assert answer.status_code == 200
    assert answer.json["summary"]["failed"] == 1


def test_a_figure_may_have_as_many_decimals_as_floating_point_prints(client):
    """3 * 4.1 and 12.3: IEEE 754 doubles print the first with 15 decimals."""
    cells = [repr(3 * 4.1), "12.3"]
    assert len(cells[0]) > 15
    sheet = "".join(f"{n},M8,through,{cell}\r\n" for n, cell in enumerate(cells)).encode()
    found = rows(post(client, b"id,thread,hole.type,hole.thickness\r\n" + sheet, CSV, Accept=NDJSON))
    assert [row["status"] for row in found] == ["ok", "ok"]
    assert found[0]["spec"]["depths"] == found[1]["spec"]["depths"]
