"""Work is bounded by bytes and processor time: no body of a megabyte, whatever its shape, keeps a core for long."""

from __future__ import annotations

import gzip
import json
import time
import tracemalloc
from collections.abc import Callable, Iterator
from itertools import count

import pytest
from borewright.api import create_app
from borewright.api.settings import Settings
from flask.testing import FlaskClient

MEGABYTE = 1_048_000
JSON, NDJSON, CSV = "application/json", "application/x-ndjson", "text/csv"
SPEC, BATCH, AUDIT = "/v1/hole-specs", "/v1/hole-specs/batch", "/v1/hole-specs/audit"
HOLE = {"thread": "1/2-13 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 1}}
HEAD = b"id,thread,hole.type,hole.full_thread_depth\n"
#: Processor time of the slowest shape: half a second, or as long as a thousand new holes take where others use the
#: machine as well; of a document a thousand answers or refusals, or half a second and the item in which it ends.
MOST_SECONDS, HOLES, MOST_DOCUMENTS = 0.5, 1000, 4


def filled(unit: bytes, size: int = MEGABYTE, *, by: bytes = b",") -> bytes:
    """A unit again and again."""
    return by.join([unit] * (size // (len(unit) + len(by))))


def numbered(form: str, size: int = MEGABYTE) -> bytes:
    """Fields or items, each with its number in it."""
    parts: list[str] = []
    for number in count():
        part = form % number
        size -= len(part) + 1
        if size < 0:
            return ",".join(parts).encode()
        parts.append(part)
    raise AssertionError


def in_object(fields: bytes) -> bytes:
    return b"{" + fields + b"}"


def field(value: bytes) -> bytes:
    """A hole with a field that is no part of it."""
    return json.dumps(HOLE).encode()[:-1] + b',"x":' + value + b"}"


def tapped(number: int, **more: object) -> dict[str, object]:
    return {**HOLE, "hole": {"type": "blind", "full_thread_depth": 1 + number / 1000}, **more}


def crib(number: int, size: int) -> list[str]:
    return [f"1/2-13 HSS H{place % 9} T{number}-{place}" for place in range(size)]


def wordy(size: int) -> list[str]:
    """Markings of the longest kind, each with many words that may say something of the thread."""
    words = "1/2-13 NC HSS G H3 spiral point plug TiN left hand metric M8x1.25 D5 6H "
    return [f"{number} {words * 2}"[:120] for number in range(size)]


def items(*found: object, **more: object) -> bytes:
    return json.dumps({"items": found, **more}).encode()


def dates(count: int) -> Iterator[tuple[int, int, int]]:
    """Month, day and year, none soon again."""
    return ((number % 12 + 1, number % 31 + 1, number % 97) for number in range(count))


def body(**fields: object) -> bytes:
    return json.dumps(fields).encode()


def compared(reply: dict[str, object]) -> bytes:
    """A kept reply beside another request: what the request changed is told from what the service did."""
    return body(before={"request": HOLE, "reply": reply}, after=tapped(100))


Shape = Callable[[], bytes]
OF_REQUEST: dict[str, Shape] = {
    "different keys, the last one twice": lambda: in_object(numbered('"%x":0') + b',"1ff":0'),
    "different keys": lambda: in_object(numbered('"%x":0')),
    "one key": lambda: in_object(filled(b'"a":0')),
    "keys like a known one": lambda: in_object(numbered('"full_thread_depth_%d":0')),
    "unknown fields of the hole": lambda: b'{"thread":"M8","hole":' + in_object(numbered('"thickness%d":0')) + b"}",
    "long unknown names": lambda: in_object(numbered('"' + "full_thread_depth" * 60 + '%d":0')),
    "one long name": lambda: in_object(b'"' + b"a" * MEGABYTE + b'":0'),
    "deep lists": lambda: b"[" * MEGABYTE,
    "deep objects": lambda: b'{"a":' * (MEGABYTE // 5),
    "lists just not too deep": lambda: field(b"[" + filled(b"[" * 29 + b"]" * 29) + b"]"),
    "objects with a key twice": lambda: field(b"[" + filled(b'{"a":0,"a":0}') + b"]"),
    "empty objects": lambda: field(b"[" + filled(b"{}") + b"]"),
    "empty lists as thread": lambda: b'{"thread":[' + filled(b"[]") + b"]}",
    "nulls": lambda: field(b"[" + filled(b"null") + b"]"),
    "NaN": lambda: field(b"[" + filled(b"NaN") + b"]"),
    "a long integer": lambda: field(b"9" * MEGABYTE),
    "long integers": lambda: field(b"[" + filled(b"9" * 4000) + b"]"),
    "a long decimal": lambda: field(b"0." + b"9" * MEGABYTE),
    "a long exponent": lambda: field(b"1e" + b"9" * MEGABYTE),
    "a long text": lambda: b'{"thread":"' + b"M" * MEGABYTE + b'"}',
    "escapes": lambda: b'{"thread":"' + b"\\u004d" * (MEGABYTE // 6) + b'"}',
    "half surrogates": lambda: b'{"thread":"' + b"\\ud800" * (MEGABYTE // 6) + b'"}',
    "brackets in a text": lambda: b'{"id":"' + b"[{" * (MEGABYTE // 2) + b'"}',
    "ids": lambda: in_object(filled(b'"id":0')),
    "blanks": lambda: b'{"thread":' + b" " * MEGABYTE + b'"M8","hole":{"type":"through","thickness":1}}',
    "no JSON": lambda: b"{" * 100 + b"x" * MEGABYTE,
    "too many taps": lambda: json.dumps({**HOLE, "stock": {"taps": ["H3"] * 19_000}}).encode(),
    "too many drills": lambda: json.dumps({**HOLE, "stock": {"drills": ["27/64"] * 19_000}}).encode(),
    "objects as drill series": lambda: json.dumps({**HOLE, "drill_series": [{"a": [1] * 90}] * 100}).encode(),
    "long markings": lambda: json.dumps({**HOLE, "stock": {"taps": wordy(266)}}).encode(),
    "a whole crib": lambda: json.dumps({**HOLE, "stock": {"taps": crib(0, 1000)}}).encode(),
}
OF_BATCH: dict[str, tuple[str, Shape]] = {
    "keys": (JSON, lambda: in_object(numbered('"item_%d":0'))),
    "empty objects": (JSON, lambda: b'{"items":[' + filled(b"{}") + b"]}"),
    "nothings": (JSON, lambda: b'{"items":[' + filled(b"0") + b"]}"),
    "keys twice": (JSON, lambda: b'{"items":[' + filled(b'{"a":0,"a":0}') + b"]}"),
    "sixty cribs": (JSON, lambda: items(*(tapped(one, stock={"taps": crib(one, 700)}) for one in range(60)))),
    "a crib for many holes": (
        JSON,
        lambda: items(*map(tapped, range(999)), defaults={"stock": {"taps": crib(0, 900)}}),
    ),
    "wide defaults": (JSON, lambda: items(*[{}] * 1000, defaults={f"depth{one}": 0 for one in range(30_000)})),
    "wide holes by default": (
        JSON,
        lambda: items(*[{}] * 1000, defaults={"hole": {f"d{one}": 0 for one in range(60_000)}}),
    ),
    "a long word by default": (JSON, lambda: items(*[{}] * 1000, defaults={"objective": "x" * MEGABYTE})),
    "lines of a character": (NDJSON, lambda: filled(b"x", by=b"\n")),
    "lines without a field": (NDJSON, lambda: filled(b"{}", by=b"\n")),
    "empty lines": (NDJSON, lambda: b"\n" * MEGABYTE),
    "lines of blanks": (NDJSON, lambda: filled(b"   ", by=b"\n")),
    "lines of unknown fields": (NDJSON, lambda: filled(in_object(numbered('"x%d":0', 125_000)), by=b"\n")),
    "lines with a key twice": (NDJSON, lambda: filled(in_object(numbered('"%x":0', 125_000) + b',"1":0'), by=b"\n")),
    "rows of a character": (CSV, lambda: HEAD + filled(b"x", by=b"\n")),
    "empty rows": (CSV, lambda: HEAD + filled(b",,,", by=b"\n")),
    "quotes": (CSV, lambda: HEAD + b'"' + b'""' * (MEGABYTE // 2)),
    "an open quote": (CSV, lambda: HEAD + b'"' + b"\n" * MEGABYTE),
    "a wide head": (CSV, lambda: filled(b"id")),
    "dates": (CSV, lambda: b"thread,depth\n" + b"\n".join(b"%d-%d-20%02d," % date for date in dates(80_000))),
    "wide rows": (CSV, lambda: HEAD + filled(b"," * 130_000, by=b"\n")),
}  # fmt: skip


PART, FIT, NOTE, REWORK = "/v1/part-plans", "/v1/shop-figures/fit", "/v1/notes/read", "/v1/rework"
COMPARE = "/v1/hole-specs/compare"
PIECE = {"kind": "drilled_hole", "drill": "5/16", "measured": "0.3135 in"}
FOUND = {"condition": "stripped"}
KEPT = {"spec_id": "krp-1", "operations": []}
GAUGED = {"kind": "go_no_go", "thread": "1/2-13 UNC-2B", "checked": 100, "go_refused": 2, "not_go_entered": 3}
WIDE = {f"d{number}": 0 for number in range(60_000)}
#: Of these each item that can be worked out brings time of its own.
OF_MANY_ITEMS = ("cribs of a part", "few pieces of each machine", "gauged on many machines")
#: Of the other routes: what holds no more than a few items that can be worked out.
ELSEWHERE: dict[str, tuple[str, str, Shape]] = {
    "holes without a field": (PART, JSON, lambda: b'{"holes":[' + filled(b"{}") + b"]}"),
    "wide defaults of a part": (PART, JSON, lambda: body(holes=[{}] * 1000, defaults=WIDE)),
    "wide holes of a part": (PART, JSON, lambda: body(holes=[{}] * 1000, defaults={"hole": WIDE})),
    "blank lines of a part": (PART, NDJSON, lambda: b"\n" * MEGABYTE),
    "rows of a character of a part": (PART, CSV, lambda: HEAD + filled(b"x", by=b"\n")),
    "cribs of a part": (
        PART,
        JSON,
        lambda: body(holes=[tapped(one, stock={"taps": crib(one, 700)}) for one in range(20)]),
    ),
    "a note of a megabyte": (NOTE, JSON, lambda: body(note="M8 " * (MEGABYTE // 3))),
    "a note of numbers": (NOTE, JSON, lambda: body(note="1/2 " * 1000)),
    "a note of brackets": (NOTE, JSON, lambda: body(note="(" * 4000)),
    "a note of signs": (NOTE, JSON, lambda: body(note="⌀⌴⌵↧×°±" * 571)),
    "a note of damage": (NOTE, JSON, lambda: body(note=("l/4-2O UNC " * 400)[:4000])),
    "general notes": (NOTE, JSON, lambda: body(note="M8", general_notes=["ALL CLASS 2B"] * 60_000)),
    "what was found": (REWORK, JSON, lambda: body(**HOLE, found=WIDE)),
    "rework with a crib": (REWORK, JSON, lambda: body(**HOLE, found=FOUND, stock={"taps": crib(3, 1000)})),
    "pieces without a field": (FIT, NDJSON, lambda: filled(b"{}", by=b"\n")),
    "rows of commas": (FIT, CSV, lambda: b"kind,measured\n" + filled(b",", by=b"\n")),
    "a cell of values": (FIT, CSV, lambda: b"kind,drill,measured\ndrilled_hole,5/16," + filled(b"0.3", by=b"|")),
    "as many values as are fitted": (
        FIT,
        JSON,
        lambda: body(measurements=[PIECE | {"measured": [0.31 + n / 1e6 for n in range(1000)]}] * 10),
    ),
    "a machine for each piece": (
        FIT,
        JSON,
        lambda: body(measurements=[PIECE | {"machine": f"VMC {n}"} for n in range(1500)]),
    ),
    "few pieces of each machine": (
        FIT,
        JSON,
        lambda: body(
            measurements=[PIECE | {"machine": f"M{n % 1000}", "measured": 0.31 + n / 1e6} for n in range(9999)]
        ),
    ),
    "gauged on many machines": (
        FIT,
        JSON,
        lambda: body(measurements=[GAUGED | {"machine": f"M{n}"} for n in range(900)]),
    ),
    "rows of far too many pieces": (
        FIT,
        CSV,
        lambda: b"kind,drill,measured\n" + filled(b"drilled_hole,5/16,0.3135 in", by=b"\n"),
    ),
    "long rows of pieces": (
        FIT,
        CSV,
        lambda: (
            b"kind,drill,measured,machine\n"
            + filled(b"drilled_hole,5/16,0.3135 in," + b"x" * 9_000, 60_000_000, by=b"\n")
        ),
    ),
    "unknown fields of a kept reply": (COMPARE, JSON, lambda: compared(KEPT | {f"depth{n}": 0 for n in range(39_000)})),
    "unknown fields of a kept thread": (
        COMPARE,
        JSON,
        lambda: compared(KEPT | {"thread": {f"pitch{n}": 0 for n in range(39_000)}}),
    ),
    "texts of a kept reply": (COMPARE, JSON, lambda: compared(KEPT | {"cautions": [str(n) for n in range(39_000)]})),
    "items of a kept reply": (
        COMPARE,
        JSON,
        lambda: compared(KEPT | {"cautions": [{"code": str(n)} for n in range(16_000)]}),
    ),
    "a deep reply": (COMPARE, JSON, lambda: b'{"before":' + b"[" * 25 + filled(b'{"a":0}') + b"]" * 25 + b"}"),
    "a long query": (f"{SPEC}?{'&'.join(f'a{n}=1' for n in range(1500))}", JSON, lambda: body(**HOLE)),
}


@pytest.fixture(scope="module")
def service() -> FlaskClient:
    """A client of a service that has answered before: what is loaded at first use is loaded."""
    client = create_app().test_client()
    client.post(SPEC, json={**HOLE, "stock": {"taps": ["H3", "1/2-13 HSS G H5"]}})
    for form, body in ((JSON, items(HOLE)), (NDJSON, b"{}"), (CSV, HEAD + b"x")):
        client.post(BATCH, data=body, content_type=form)
    client.post(PART, json={"holes": [HOLE]})
    client.post(FIT, json={"measurements": [PIECE] * 9})
    client.post(NOTE, json={"note": "4X M8 THRU"})
    client.post(REWORK, json={**HOLE, "found": FOUND})
    return client


@pytest.fixture(scope="module")
def most_seconds(service: FlaskClient) -> float:
    """What a body may take on this machine now."""
    began = time.process_time()
    for number in range(30):
        service.post(SPEC, json={**HOLE, "hole": {"type": "blind", "full_thread_depth": 0.5 + number / 1000}})
    return max(MOST_SECONDS, (time.process_time() - began) / 30 * HOLES)


def seconds(client: FlaskClient, path: str, body: bytes, form: str = JSON) -> float:
    """Processor time of an answer that is read to its end."""
    began = time.process_time()
    answer = client.post(path, data=body, content_type=form)
    assert answer.status_code < 500
    assert answer.get_data() is not None
    return time.process_time() - began


@pytest.mark.parametrize("shape", OF_REQUEST)
def test_a_request_of_any_shape(service, most_seconds, shape):
    body = OF_REQUEST[shape]()
    assert seconds(service, SPEC, body) < most_seconds


@pytest.mark.parametrize("shape", OF_BATCH)
def test_a_batch_of_any_shape(service, most_seconds, shape):
    form, make = OF_BATCH[shape]
    body = make()
    assert seconds(service, BATCH, body, form) < most_seconds * (MOST_DOCUMENTS if form == JSON else 1)


@pytest.mark.parametrize("shape", ELSEWHERE)
def test_a_body_of_any_shape_elsewhere(service, most_seconds, shape):
    path, form, make = ELSEWHERE[shape]
    sent = make()
    assert seconds(service, path, sent, form) < most_seconds * (MOST_DOCUMENTS if shape in OF_MANY_ITEMS else 1)


def test_a_key_that_comes_again_last_is_named(service):
    fields = ",".join(f'"{number:x}":0' for number in range(15_000))
    answer = service.post(SPEC, data=in_object(f'{fields},"3a7f":0'.encode()), content_type=JSON)
    assert (answer.status_code, answer.json["code"]) == (400, "json_duplicate_key")
    assert answer.json["errors"][0]["pointer"] == "/3a7f"


def test_unknown_fields_are_named_a_few_and_counted(service):
    answer = service.post(SPEC, json={**HOLE, **{f"metod{number:03}": 0 for number in range(200)}})
    faults = answer.json["errors"]
    assert [fault["pointer"] for fault in faults] == [*(f"/metod00{number}" for number in range(5)), ""]
    assert faults[0]["did_you_mean"] == ["method"]
    assert faults[-1]["detail"] == "195 more unknown fields."


def test_too_many_values_are_refused_before_they_are_read(service):
    """16 MB of empty objects, 16 KB as gzip: five and a half million of them would take 350 MB once they are read."""
    bomb = b'{"items":[' + filled(b"{}", 16_700_000) + b"]}"
    tracemalloc.start()
    answer = service.post(BATCH, data=gzip.compress(bomb), content_type=JSON, headers={"Content-Encoding": "gzip"})
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert (answer.status_code, answer.json["code"]) == (413, "too_much_work")
    assert most < 3 * len(bomb)


def test_time_is_a_setting_and_the_refusal_says_what_to_make_smaller():
    client = create_app(Settings(max_cpu_ms=10)).test_client()
    body = items(*(tapped(number, stock={"taps": crib(number, 300)}) for number in range(20)))
    answer = client.post(BATCH, data=body, content_type=JSON)
    assert (answer.status_code, answer.json["code"]) == (413, "too_much_work")
    assert "has 10 ms of processor time, and 0.4 ms more for each item" in answer.json["detail"]
    assert "fewer items or shorter stock lists" in answer.json["detail"]
    unseen = [tapped(number, material="4140 at 31 HRC", safety_factor=1 + number / 977) for number in range(200)]
    part = create_app(Settings(max_cpu_ms=1)).test_client().post(PART, json={"holes": unseen})
    assert part.status_code == 413, part.json["time"]
    assert part.json["code"] == "too_much_work"
    streamed = client.post(BATCH, data=body, content_type=JSON, headers={"Accept": NDJSON})
    *_, last = streamed.get_data().splitlines()
    assert (streamed.status_code, json.loads(last)["problem"]["code"]) == (200, "too_much_work")
    lines = b"\n".join(json.dumps(tapped(number, stock={"taps": crib(number, 300)})).encode() for number in range(20))
    *_, last = client.post(BATCH, data=lines, content_type=NDJSON).get_data().splitlines()
    assert json.loads(last)["problem"]["code"] == "too_much_work"


@pytest.mark.parametrize(
    ("form", "unit"), [(NDJSON, b"\n"), (NDJSON, b" \t\n"), (CSV, b"\n"), (CSV, b",,,\n"), (CSV, b" ,,,\r\n")]
)
def test_what_stands_between_items_is_not_read_for_ever(most_seconds, form, unit):
    """Thirty megabytes of nothing, some 30 KB as gzip; read to their end they take seconds."""
    client = create_app(Settings(max_cpu_ms=50)).test_client()
    body = gzip.compress((HEAD if form == CSV else b"") + unit * (30_000_000 // len(unit)), 1)
    began = time.process_time()
    answer = client.post(BATCH, data=body, content_type=form, headers={"Content-Encoding": "gzip", "Accept": NDJSON})
    *_, last = answer.get_data().splitlines()
    assert time.process_time() - began < most_seconds
    assert json.loads(last)["problem"]["code"] == "too_much_work"


def test_a_crib_is_bounded_by_its_characters(service):
    """A thousand markings of a usual length are read, of the longest not: each word of a marking takes its time."""
    usual = [f"1/2-13 UNC HSS G H3 plug {number:04}" for number in range(1000)]
    assert sum(map(len, usual)) < 32_000
    assert service.post(SPEC, json={**HOLE, "stock": {"taps": usual}}).status_code == 200
    answer = service.post(SPEC, json={**HOLE, "stock": {"taps": [tap.ljust(120, ".") for tap in usual]}})
    assert (answer.status_code, answer.json["code"]) == (422, "list_length_wrong")
    assert "at most 32000 characters, not 120000" in answer.json["detail"]
    assert answer.json["errors"][0]["pointer"] == "/stock/taps"


def test_fields_that_no_reply_has_are_named_as_many_as_are_shown(service):
    answer = service.post(COMPARE, data=compared(KEPT | {f"depth{n}": 0 for n in range(9000)}), content_type=JSON)
    gone = [one["pointer"] for one in answer.json["not_compared"] if one["why"] == "no_longer_answered"]
    assert answer.status_code == 200
    assert gone == [f"/depth{n}" for n in range(len(gone))]
    assert 90 < len(gone) <= len(answer.json["not_compared"]) == 100


def test_a_whole_reply_can_be_compared(service):
    """The longest there is: of an insert's hole with its steps, each drill of a crib weighed."""
    drills = [f"{place / 100:.2f} mm" for place in range(300, 2300)]
    asked = {"thread": "M10 STI", "hole": {"type": "blind", "full_thread_depth": "14 mm"}, "explain": True}
    reply = service.post(SPEC, json={**asked, "stock": {"drills": drills}}).json
    answer = service.post(COMPARE, json={"before": {"request": asked, "reply": reply}})
    assert answer.status_code == 200


def test_the_time_of_a_fit_is_that_of_its_values(service):
    """Every figure of a count by gauges takes as long as hundreds of values do: so many at once are too much work."""
    client = create_app(Settings(max_cpu_ms=10)).test_client()
    answer = client.post(FIT, json={"measurements": [GAUGED | {"machine": f"M{n}"} for n in range(300)]})
    assert (answer.status_code, answer.json["code"]) == (413, "too_much_work")
    assert "0.002 ms more for each item; it took longer, with 300 items" in answer.json["detail"]
    rows = b"kind,drill,measured,batch\n" + filled(b"drilled_hole,5/16,0.3135 in," + b"x" * 500, 5_000_000, by=b"\n")
    answer = client.post(FIT, data=rows, content_type=CSV)
    assert (answer.status_code, answer.json["code"]) == (413, "too_much_work")


@pytest.mark.parametrize("form", [JSON, CSV])
def test_the_answer_for_a_part_is_bounded(form):
    """Each of few holes may weigh a whole crib: a megabyte of answer a hole."""
    client = create_app(Settings(max_batch_items=10, max_cpu_ms=60_000)).test_client()
    stock = {"taps": crib(0, 1000)}
    part = {"holes": [tapped(number) for number in range(20)], "stock": stock}
    answer = client.post(PART, json=part, headers={"Accept": form})
    if form == CSV:  # tables have the operations and cards of the holes, whatever was weighed
        assert answer.status_code == 200
        return
    assert (answer.status_code, answer.json["code"]) == (413, "too_much_work")
    assert "655360 bytes" in answer.json["detail"]
    assert client.post(PART, json={**part, "detail": "routing"}).status_code == 200


def test_an_answer_that_is_gathered_is_bounded():
    client = create_app(Settings(max_batch_items=1, max_cpu_ms=60_000)).test_client()
    answer = client.post(BATCH, json={"items": [tapped(0, stock={"taps": crib(0, 200)})]})
    assert (answer.status_code, answer.json["code"]) == (413, "too_much_work")
    assert "65536 bytes" in answer.json["detail"]


def test_only_what_can_be_worked_out_earns_time(service):
    """Many good lines are answered though they take longer than one request; of lines that are none only the first."""
    line = '{"thread":"M8","hole":{"type":"through","thickness":%d.%03d}}\n'
    good = "".join(line % (9 + one // 1000, one % 1000) for one in range(300)).encode()
    answer = create_app(Settings(max_cpu_ms=250)).test_client().post(BATCH, data=good, content_type=NDJSON)
    assert answer.get_data().count(b'"status":"ok"') == 300
    rubbish = good.replace(b'"thread"', b'"thraed"') * 3
    answer = create_app(Settings(max_cpu_ms=10)).test_client().post(BATCH, data=rubbish, content_type=NDJSON)
    found = [json.loads(one) for one in answer.get_data().splitlines()]
    assert len(found) < 900
    assert found[-1]["problem"]["code"] == "too_much_work"
    assert "with 0 items worked out" in found[-1]["problem"]["detail"]


def test_more_figures_than_a_shop_has_are_not_fitted_at_once(service):
    answer = service.post(FIT, json={"measurements": [PIECE | {"machine": f"VMC {one}"} for one in range(1001)]})
    assert (answer.status_code, answer.json["code"]) == (422, "measurements_too_many")
    assert answer.json["errors"][0]["pointer"] == "/measurements"


def test_items_of_a_stream_are_bounded_where_a_setting_says_so():
    client = create_app(Settings(max_stream_items=3)).test_client()
    answer = client.post(BATCH, data=filled(json.dumps(HOLE).encode(), 500, by=b"\n\n"), content_type=NDJSON)
    found = [json.loads(line) for line in answer.get_data().splitlines()]
    assert [one["status"] for one in found] == ["ok", "ok", "ok", "error"]
    assert found[-1]["problem"]["code"] == "batch_too_large"
    assert "3 items" in found[-1]["problem"]["detail"]


@pytest.mark.parametrize(("form", "head"), [(NDJSON, b""), (CSV, HEAD)])
def test_an_upload_of_rubbish_is_not_read_to_its_end(form, head):
    good = b'{"thread":"M8","hole":{"type":"through","thickness":9}}' if form == NDJSON else b"a,M8,blind,9"
    body = b"\n".join([head.strip(), *[b"x"] * 999, good, *[b"x"] * 1500])
    client = create_app(Settings(max_cpu_ms=20_000)).test_client()
    answer = client.post(BATCH, data=body, content_type=form, headers={"Accept": NDJSON})
    found = [json.loads(line) for line in answer.get_data().splitlines()]
    assert len(found) == 999 + 1 + 1000 + 1
    assert found[999]["status"] == "ok"
    assert found[-1]["problem"]["code"] == "too_much_work"
